import { useArrival } from '../frame/use-arrival.ts';
import { useLeft } from '../frame/use-left.ts';
import { go, hrefOf } from '../frame/use-route.ts';
import { useSession } from '../walk/use-session.ts';
import { WalkPage } from '../walk/walk-page.tsx';
import { OUTCOME_WORDS } from '../words/outcome-words.ts';
import { RitualSteps } from './ritual-steps.tsx';
import './ritual.css';

/** All is back and tried; the tech closes the call, or reads its report once it is closed. */
export function ClosingScreen() {
  const { view, walk, send, writing } = useSession();
  const heading = useArrival(view.phase);
  const left = useLeft();
  const closed = view.phase === 'closed';
  const words = view.outcome && OUTCOME_WORDS[view.outcome];
  const close = async (): Promise<void> => {
    if ((await send({ type: 'closed' })) && !left.current) go({ screen: 'report', walk: walk.id });
  };
  return (
    <WalkPage
      dock={
        closed ? (
          <a className="button button-main button-wide" href={hrefOf({ screen: 'report', walk: walk.id })}>
            Report
          </a>
        ) : (
          <button type="button" className="button button-main button-wide" disabled={writing} onClick={() => void close()}>
            Close the call
          </button>
        )
      }
    >
      {!closed && <RitualSteps now="close" />}
      <div className="step-head finding-head">
        <p className="kicker">{closed ? 'Closed' : 'Ready to close'}</p>
        <h1 ref={heading} tabIndex={-1}>
          {words?.short}
        </h1>
        <p className="finding-faults">{words?.long}</p>
      </div>
      {view.finding && <p>{view.finding.title}</p>}
      <p className="section-note">
        {closed
          ? 'The log takes no more entries.'
          : 'Nothing temporary is left in place. After closing, the log takes no more entries; notes and photos go before.'}
      </p>
    </WalkPage>
  );
}
