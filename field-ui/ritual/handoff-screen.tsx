import { ComputedNumbers } from '../../shared/ui/computed-numbers.tsx';
import { Prose } from '../../shared/ui/prose.tsx';
import { useArrival } from '../frame/use-arrival.ts';
import { StandingCautions } from '../step/cautions.tsx';
import { useSession } from '../walk/use-session.ts';
import { useWalkControls } from '../walk/walk-controls.ts';
import { WalkPage } from '../walk/walk-page.tsx';
import './ritual.css';

/** Stop here, and whom to call. */
export function HandoffScreen() {
  const { view, walk, send, writing } = useSession();
  const { openSheet } = useWalkControls();
  const heading = useArrival(`handoff ${walk.snapshot.context.at}`);
  const { step } = view;
  if (step?.kind !== 'handoff') return null;
  return (
    <WalkPage
      dock={
        <div className="dock-row">
          <button type="button" className="button button-line" onClick={() => openSheet('path')}>
            Step back
          </button>
          <button type="button" className="button button-main" disabled={writing} onClick={() => void send({ type: 'went-on' })}>
            Hand over
          </button>
        </div>
      }
    >
      <StandingCautions folded={false} />
      <div className="step-head finding-head">
        <p className="kicker">Stop here</p>
        <h1 ref={heading} tabIndex={-1}>
          {step.title}
        </h1>
        {step.title !== `Call ${step.to}` && <p className="finding-faults">Call {step.to}</p>}
      </div>
      <Prose prose={step.prose} figures={walk.edition.compiled.edition.figures} />
      <ComputedNumbers numbers={view.computed} />
      <p className="section-note">Handing over takes you to the put-back list; then the call is closed as not solved, with its report.</p>
    </WalkPage>
  );
}
