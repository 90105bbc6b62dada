import { Prose } from '../../shared/ui/prose.tsx';
import { useSession } from '../walk/use-session.ts';

/** The step's own words: folded below where the task line is enough for one who has done it before. */
export function StepProse({ folded }: { readonly folded: boolean }) {
  const { view, walk } = useSession();
  const { step } = view;
  if (!step || step.prose.length === 0) return null;
  const prose = <Prose prose={step.prose} figures={walk.edition.compiled.edition.figures} />;
  if (!folded) return <div className="step-prose">{prose}</div>;
  return (
    <details className="step-prose" key={`${walk.snapshot.context.at} ${view.path.length}`}>
      <summary>How to do it</summary>
      {prose}
    </details>
  );
}
