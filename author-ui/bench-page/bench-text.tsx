import { useRef } from 'react';
import type { Problem } from '../../engine/problem.ts';

type BenchTextProps = {
  readonly file: string;
  readonly text: string;
  readonly problems: readonly Problem[];
  readonly onText: (text: string) => void;
};

/** The file itself, with the numbers of its lines, and what is wrong with it: a press on a problem goes to its place. */
export function BenchText({ file, text, problems, onText }: BenchTextProps) {
  const area = useRef<HTMLTextAreaElement>(null);
  const lines = text.split('\n').length;
  const marked = new Map<number, string>();
  for (const { line, severity } of problems) if (marked.get(line) !== 'error') marked.set(line, severity);
  const goTo = ({ line, column, endLine, endColumn }: Problem): void => {
    const starts = [0];
    for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
    const offset = (l: number, c: number): number => (starts[l - 1] ?? text.length) + c - 1;
    area.current?.focus();
    area.current?.setSelectionRange(offset(line, column), offset(endLine ?? line, endColumn ?? column));
    const height = (area.current?.scrollHeight ?? 0) / lines;
    area.current?.closest('.bench-text-scroll')?.scrollTo({ top: Math.max(0, (line - 4) * height) });
  };
  return (
    <section className="bench-text" aria-labelledby="text-title">
      <h2 id="text-title">
        <label htmlFor="bench-text">The file as text</label>
      </h2>
      {problems.length > 0 ? (
        <ul className="bench-problems" aria-label="Problems">
          {problems.map((problem) => (
            <li key={`${problem.line} ${problem.column} ${problem.code} ${problem.message}`} className="problem">
              <button type="button" className="button-plain" onClick={() => goTo(problem)}>
                {problem.severity === 'error' ? 'Error' : 'Warning'}, line {problem.line}
              </button>{' '}
              {problem.message} <span className="problem-fix">{problem.fix}</span>
            </li>
          ))}
        </ul>
      ) : (
        <p className="bench-none">No problems.</p>
      )}
      <div className="bench-text-scroll">
        <div className="bench-text-rows">
          <div className="bench-text-numbers" aria-hidden="true">
            {Array.from({ length: lines }, (_, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a line is its number.
              <span key={index} className={marked.has(index + 1) ? 'bench-line-wrong' : undefined}>
                {marked.has(index + 1) ? '▸' : ''}
                {index + 1}
              </span>
            ))}
          </div>
          <textarea
            ref={area}
            id="bench-text"
            aria-label={file}
            value={text}
            rows={lines + 1}
            wrap="off"
            spellCheck={false}
            autoCapitalize="off"
            onChange={(event) => onText(event.target.value)}
          />
        </div>
      </div>
    </section>
  );
}
