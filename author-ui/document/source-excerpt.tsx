import type { Problem } from '../../engine/problem.ts';

/** The line of the source that a problem is about, with the place marked. Nothing where the source has no such line. */
export function SourceExcerpt({ source, problem }: { readonly source: string; readonly problem: Problem }) {
  const line = source.split(/\r\n|\r|\n/)[problem.line - 1];
  if (line === undefined || line.trim() === '') return null;
  const start = Math.min(problem.column - 1, line.length);
  const sameLine = problem.endLine === undefined || problem.endLine === problem.line;
  const end = sameLine && problem.endColumn !== undefined ? Math.min(problem.endColumn - 1, line.length) : line.length;
  return (
    <pre className="excerpt">
      <span className="excerpt-number">{problem.line}</span>
      <code>
        {line.slice(0, start)}
        <mark>{line.slice(start, Math.max(end, start))}</mark>
        {line.slice(Math.max(end, start))}
      </code>
    </pre>
  );
}
