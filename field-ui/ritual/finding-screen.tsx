import { ComputedNumbers } from '../../shared/ui/computed-numbers.tsx';
import { Prose } from '../../shared/ui/prose.tsx';
import { plainWords } from '../../shared/ui/words/plain-words.ts';
import { useArrival } from '../frame/use-arrival.ts';
import { PathList } from '../sheets/path-list.tsx';
import { StandingCautions } from '../step/cautions.tsx';
import { useSession } from '../walk/use-session.ts';
import { useWalkControls } from '../walk/walk-controls.ts';
import { WalkPage } from '../walk/walk-page.tsx';
import './ritual.css';

/** Which part it is, and why: the readings that say so stand below. */
export function FindingScreen() {
  const { view, walk, send, writing } = useSession();
  const { openSheet } = useWalkControls();
  const heading = useArrival(`finding ${walk.snapshot.context.at}`);
  const { finding } = view;
  if (!finding) return null;
  const figures = walk.edition.compiled.edition.figures;
  const nothing = finding.faults.length === 0;
  const faults = finding.faults.map(plainWords).join(' or ');
  return (
    <WalkPage
      dock={
        <div className="dock-row">
          <button type="button" className="button button-line" onClick={() => openSheet('path')}>
            Step back
          </button>
          <button type="button" className="button button-main" disabled={writing} onClick={() => void send({ type: 'found' })}>
            {nothing ? 'Accept' : 'Accept, go to the repair'}
          </button>
        </div>
      }
    >
      <StandingCautions folded={false} />
      <div className="step-head finding-head">
        <p className="kicker">{nothing ? 'Nothing found' : 'Found'}</p>
        <h1 ref={heading} tabIndex={-1}>
          {finding.title}
        </h1>
        {!nothing && faults !== finding.title.toLowerCase() && <p className="finding-faults">{faults}</p>}
      </div>
      <Prose prose={finding.prose} figures={figures} />
      <ComputedNumbers numbers={view.computed} />
      <section aria-labelledby="why-title">
        <h2 id="why-title">What says so</h2>
        <PathList path={view.path.slice(0, -1)} steps={walk.edition.compiled.steps} />
      </section>
      {finding.repair.length > 0 && (
        <details className="step-prose">
          <summary>The repair</summary>
          <Prose prose={finding.repair} figures={figures} />
        </details>
      )}
    </WalkPage>
  );
}
