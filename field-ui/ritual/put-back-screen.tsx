import { useArrival } from '../frame/use-arrival.ts';
import { StandingCautions } from '../step/cautions.tsx';
import { useSession } from '../walk/use-session.ts';
import { WalkPage } from '../walk/walk-page.tsx';
import { PutBackList } from './put-back-list.tsx';
import { RitualSteps } from './ritual-steps.tsx';
import './ritual.css';

/** The call cannot go on until everything temporary is back. */
export function PutBackScreen() {
  const { view } = useSession();
  const heading = useArrival('put-back');
  const left = view.putBack.length;
  return (
    <WalkPage>
      <StandingCautions folded />
      <RitualSteps now="put-back" />
      <div className="step-head">
        <p className="kicker">Put back</p>
        <h1 ref={heading} tabIndex={-1}>
          {left === 1 ? 'One thing is still in place' : `${left} things are still in place`}
        </h1>
      </div>
      <PutBackList />
    </WalkPage>
  );
}
