import type { Problem } from '../../engine/problem.ts';
import { problemsText, severityCount } from './shelf-state.ts';

/** How much is wrong with a file, as a link to where it is told; a plain `none` where nothing is. */
export function ProblemsCell({ problems, address }: { readonly problems: readonly Problem[]; readonly address: string }) {
  if (problems.length === 0) return <span className="state state-none">none</span>;
  const errors = severityCount(problems, 'error');
  return (
    <a className={`state ${errors > 0 ? 'state-errors' : 'state-warnings'}`} href={address}>
      {problemsText({ errors, warnings: problems.length - errors })}
    </a>
  );
}
