import type { Problem } from '../../engine/problem.ts';
import { benchAddress, treeAddress } from '../desk-route.ts';

/** Where on the desk a file of a problem is put right; its step where it is about one. */
export function problemAddress({ file, step }: Problem): string {
  const bench = /([a-z0-9-]+)\.bench\.yaml$/.exec(file)?.[1];
  if (bench !== undefined) return benchAddress(bench);
  const tree = /([a-z0-9-]+)\.tree\.mdx$/.exec(file)?.[1] ?? '';
  return treeAddress(tree, step);
}

/** A problem in a list about several files: what, where, the path that shows it, and the way out. */
export function ProblemBrief({ problem }: { readonly problem: Problem }) {
  return (
    <li className="problem-brief">
      <p className="problem-place">
        <strong>{problem.severity === 'error' ? 'Error' : 'Warning'}</strong>{' '}
        <a href={problemAddress(problem)}>
          {problem.file.replace(/^trees\//, '')} line {problem.line}
        </a>{' '}
        <code>{problem.code}</code>
      </p>
      <p className="problem-message">{problem.message}</p>
      {problem.path && problem.path.length > 0 && <p className="problem-path">Shown by: {problem.path.join(' → ')}</p>}
      <p className="problem-fix">{problem.fix}</p>
    </li>
  );
}
