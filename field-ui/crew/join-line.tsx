import { hrefOf } from '../frame/use-route.ts';
import './crew.css';

/** The way into the crew, where there is a hub and this device is in no crew. */
export function JoinLine() {
  return (
    <section className="join-line" aria-labelledby="join-line-title">
      <div className="start-section-head">
        <h2 id="join-line-title">Crew</h2>
      </div>
      <p>This device works alone. In the crew it gets the crew’s trees, and its calls are sent to the hub.</p>
      <a className="button button-line" href={hrefOf({ screen: 'join' })}>
        Join the crew
      </a>
    </section>
  );
}
