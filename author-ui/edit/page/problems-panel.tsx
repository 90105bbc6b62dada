import { useState } from 'react';
import type { Problem } from '../../../engine/problem.ts';
import type { Tree } from '../../../engine/tree/index.ts';
import { problemsText, severityCount } from '../../shelf/shelf-state.ts';
import { type QuickFix, quickFix } from '../quick-fix.ts';

type ProblemsPanelProps = {
  readonly problems: readonly Problem[];
  readonly text: string;
  readonly tree: Tree | undefined;
  readonly checking: boolean;
  /** Where the checker itself failed. */
  readonly failed: string | undefined;
  readonly go: (problem: Problem) => void;
  readonly repair: (fix: QuickFix) => void;
};

const byPlace = (a: Problem, b: Problem): number => a.line - b.line || a.column - b.column;

/** More than this at once is not read; the first ones are often the cause of the others. */
const MOST_SHOWN = 100;

/** Everything wrong with the tree, each with its place, its way out, and a repair where only one can be meant. */
export function ProblemsPanel({ problems, text, tree, checking, failed, go, repair }: ProblemsPanelProps) {
  const [isOpen, setOpen] = useState(true);
  const counts = { errors: severityCount(problems, 'error'), warnings: severityCount(problems, 'warning') };
  const words = problems.length === 0 ? 'No problems' : problemsText(counts);
  return (
    <section className="problems-panel" aria-label="Problems">
      <div className="problems-panel-head">
        <h2 role="status" data-checking={checking || undefined} data-found={problems.length > 0 || undefined}>
          {failed ?? (checking && problems.length === 0 ? 'Checking' : words)}
        </h2>
        {problems.length > 0 && (
          <button type="button" className="button-plain" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
            {isOpen ? 'Fold' : 'Show'}
          </button>
        )}
      </div>
      {isOpen && problems.length > 0 && (
        <ol>
          {[...problems]
            .sort(byPlace)
            .slice(0, MOST_SHOWN)
            .map((problem) => (
              <ProblemRow
                key={`${problem.code} ${problem.line} ${problem.column} ${problem.message}`}
                problem={problem}
                fix={quickFix(problem, text, tree)}
                title={tree?.steps.find(({ id }) => id === problem.step)?.title}
                go={go}
                repair={repair}
              />
            ))}
          {problems.length > MOST_SHOWN && <li className="problem-more">and {problems.length - MOST_SHOWN} more</li>}
        </ol>
      )}
    </section>
  );
}

type ProblemRowProps = {
  readonly problem: Problem;
  readonly fix: QuickFix | undefined;
  readonly title: string | undefined;
  readonly go: (problem: Problem) => void;
  readonly repair: (fix: QuickFix) => void;
};

function ProblemRow({ problem, fix, title, go, repair }: ProblemRowProps) {
  return (
    <li className="problem-row">
      <button type="button" className="problem-row-place" onClick={() => go(problem)}>
        <span className="problem-row-severity">{problem.severity}</span> line {problem.line}
        {title !== undefined && `, ${title}`}
      </button>
      <p>
        {problem.message} <span className="problem-row-fix">{problem.fix}</span>
        {problem.path && problem.path.length > 0 && <span className="problem-row-path">Shown by: {problem.path.join(' → ')}</span>}
      </p>
      {fix && (
        <button type="button" className="button button-quiet" onClick={() => repair(fix)}>
          {fix.label}
        </button>
      )}
    </li>
  );
}
