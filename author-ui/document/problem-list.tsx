import type { Problem } from '../../engine/problem.ts';
import type { Tree } from '../../engine/tree/index.ts';
import { treeAddress } from '../desk-route.ts';
import { problemsText, severityCount } from '../shelf/shelf-state.ts';
import { SourceExcerpt } from './source-excerpt.tsx';

type ProblemListProps = {
  readonly problems: readonly Problem[];
  readonly source: string;
  /** The tree that they are about, to lead to its steps. */
  readonly tree?: Tree | undefined;
};

const byPlace = (a: Problem, b: Problem): number => a.line - b.line || a.column - b.column;

/** Everything wrong with a source, in the order of its lines: what, where, and the way out. */
export function ProblemList({ problems, source, tree }: ProblemListProps) {
  if (problems.length === 0) return null;
  const counts = { errors: severityCount(problems, 'error'), warnings: severityCount(problems, 'warning') };
  return (
    <section className="problems" aria-labelledby="problems-title">
      <h2 id="problems-title">{problemsText(counts)}</h2>
      <p>Put them right in the editor or in the file; this page follows.</p>
      <ol>
        {[...problems].sort(byPlace).map((problem) => {
          const step = tree?.steps.find(({ id }) => id === problem.step);
          return (
            <li key={`${problem.code} ${problem.line} ${problem.column} ${problem.message}`} className="problem">
              <p className="problem-place">
                <strong>{problem.severity === 'error' ? 'Error' : 'Warning'}</strong> line {problem.line}, column {problem.column}
                {tree && step && (
                  <>
                    {' in '}
                    <a href={treeAddress(tree.name, step.id)}>{step.title}</a>
                  </>
                )}
                <code>{problem.code}</code>
              </p>
              <p className="problem-message">{problem.message}</p>
              <SourceExcerpt source={source} problem={problem} />
              {problem.path && problem.path.length > 0 && <p className="problem-path">Shown by: {problem.path.join(' → ')}</p>}
              <p className="problem-fix">{problem.fix}</p>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
