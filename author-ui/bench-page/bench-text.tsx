import { useEffect, useRef } from 'react';
import type { Problem } from '../../engine/problem.ts';
import { openTextView, type TextView } from '../edit/text/text-view.ts';

/** Lines of the file, from the first to the one after the last. */
export type Lines = { readonly from: number; readonly end: number };

type BenchTextProps = {
  readonly file: string;
  readonly text: string;
  readonly problems: readonly Problem[];
  /** Whether the problems are about the text as it stands; while it is typed they may be of the text before. */
  readonly isCurrent: boolean;
  /** Lines to bring into view and mark, when they change: those of the entry whose form is open. */
  readonly shown: Lines | undefined;
  readonly onText: (text: string) => void;
  readonly cursorAt: (line: number) => void;
  readonly undo: () => void;
  readonly redo: () => void;
};

/** The file itself, to read and to edit, and what is wrong with it: a press on a problem goes to its place. */
export function BenchText(props: BenchTextProps) {
  const { file, text, problems, isCurrent, shown } = props;
  const place = useRef<HTMLDivElement>(null);
  const view = useRef<TextView>(undefined);
  const now = useRef(props);
  now.current = props;

  useEffect(() => {
    if (!place.current) return;
    const opened = openTextView(
      place.current,
      now.current.text,
      {
        changed: (next) => now.current.onText(next),
        cursorAt: (line) => now.current.cursorAt(line),
        undo: () => now.current.undo(),
        redo: () => now.current.redo(),
      },
      { language: 'yaml', label: file },
    );
    view.current = opened;
    return () => opened.close();
  }, [file]);

  useEffect(() => view.current?.setText(text), [text]);
  useEffect(() => {
    if (isCurrent) view.current?.setProblems(problems);
  }, [problems, isCurrent]);
  const [from, end] = [shown?.from, shown?.end];
  useEffect(() => {
    if (from !== undefined && !view.current?.hasFocus()) view.current?.show(from, end);
  }, [from, end]);

  return (
    <section className="bench-text" aria-labelledby="text-title">
      <h2 id="text-title">The file as text</h2>
      {problems.length > 0 ? (
        <ul className="bench-problems" aria-label="Problems">
          {problems.map((problem) => (
            <li key={`${problem.line} ${problem.column} ${problem.code} ${problem.message}`} className="problem">
              <button type="button" className="button-plain" onClick={() => view.current?.go(problem.line, problem.column)}>
                {problem.severity === 'error' ? 'Error' : 'Warning'}, line {problem.line}
              </button>{' '}
              {problem.message} <span className="problem-fix">{problem.fix}</span>
            </li>
          ))}
        </ul>
      ) : (
        <p className="bench-none">No problems.</p>
      )}
      <div className="bench-text-view" ref={place} />
    </section>
  );
}
