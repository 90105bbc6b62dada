import { Prose } from '../../shared/ui/prose.tsx';
import { useArrival } from '../frame/use-arrival.ts';
import { CautionsToRead } from '../step/cautions.tsx';
import { useSession } from '../walk/use-session.ts';
import { WalkPage } from '../walk/walk-page.tsx';
import { FactList } from './fact-list.tsx';
import './call.css';

/** The opening of a call: cautions that stand on every step, and what is so in this house. */
export function CallOpening() {
  const { view, walk, send, writing } = useSession();
  const heading = useArrival('opening');
  const { tree } = view;
  const unread = view.cautions.some(({ mustRead, read }) => mustRead && !read);
  const [first] = walk.edition.compiled.root.steps;
  return (
    <WalkPage
      dock={
        unread ? null : (
          <button type="button" className="button button-main button-wide" disabled={writing} onClick={() => void send({ type: 'went-on' })}>
            <span>Start</span>
            {first && <span className="button-second">{first.title}</span>}
          </button>
        )
      }
    >
      <div className="step-head">
        <p className="kicker">{walk.snapshot.context.opened.site ?? (walk.snapshot.context.opened.drill ? 'Drill' : 'New call')}</p>
        <h1 ref={heading} tabIndex={-1}>
          {tree.title}
        </h1>
      </div>
      <CautionsToRead />
      {view.facts.length > 0 && (
        <section aria-labelledby="facts-title">
          <h2 id="facts-title">This house</h2>
          <p className="section-note">The usual values stand here. Change what differs; the bands follow.</p>
          <FactList />
        </section>
      )}
      {tree.opening.prose.length > 0 && (
        <details className="step-prose">
          <summary>What this tree covers</summary>
          <Prose prose={tree.opening.prose} figures={walk.edition.compiled.edition.figures} />
        </details>
      )}
    </WalkPage>
  );
}
