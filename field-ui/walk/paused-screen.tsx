import { useArrival } from '../frame/use-arrival.ts';
import { useSession } from './use-session.ts';
import { WalkPage } from './walk-page.tsx';

export function PausedScreen() {
  const { send, writing, view } = useSession();
  const heading = useArrival('paused');
  return (
    <WalkPage
      dock={
        <button type="button" className="button button-wide" disabled={writing} onClick={() => void send({ type: 'resumed' })}>
          Go on
        </button>
      }
    >
      <div className="step-head">
        <p className="kicker">{view.tree.title}</p>
        <h1 ref={heading} tabIndex={-1}>
          Paused
        </h1>
      </div>
      <p>The call waits at {view.step ? `“${view.step.title}”` : 'its opening'}. The time until you go on is not counted as work on a step.</p>
      {view.putBack.length > 0 && <p>Still in place meanwhile: {view.putBack.length}. Leave nothing jumpered or lifted unattended.</p>}
    </WalkPage>
  );
}
