import { useSession } from '../walk/use-session.ts';

/** Which lead goes on which terminal, or where an instrument goes that has no two leads. */
export function LeadTags() {
  const { view } = useSession();
  const { step } = view;
  if (step?.kind !== 'reading' || !step.across) return null;
  const [red, black] = step.across;
  return (
    <dl className="lead-tags">
      <div className="lead-tag lead-tag-red">
        <dt>red lead</dt>
        <dd>{red}</dd>
      </div>
      <div className="lead-tag lead-tag-black">
        <dt>black lead</dt>
        <dd>{black}</dd>
      </div>
    </dl>
  );
}
