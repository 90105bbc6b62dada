import { useEffect, useRef } from 'react';
import type { Problem } from '../../../engine/problem.ts';
import type { TreePlaces } from '../../../engine/tree/index.ts';
import { openTextView, type TextView } from './text-view.ts';

type TreeTextProps = {
  readonly text: string;
  readonly problems: readonly Problem[];
  readonly places: TreePlaces | undefined;
  /** The ids of the steps, in the order of `places`. */
  readonly steps: readonly string[];
  readonly shown: string;
  /** A line to bring into view, when it changes. */
  readonly goTo: { readonly line: number; readonly column: number } | undefined;
  readonly change: (text: string) => void;
  readonly select: (step: string) => void;
  readonly undo: () => void;
  readonly redo: () => void;
};

/** The file itself, to read and to edit. */
export function TreeText(props: TreeTextProps) {
  const { text, problems, places, steps, shown, goTo } = props;
  const place = useRef<HTMLDivElement>(null);
  const view = useRef<TextView>(undefined);
  const now = useRef(props);
  now.current = props;

  useEffect(() => {
    if (!place.current) return;
    const opened = openTextView(place.current, now.current.text, {
      changed: (next) => now.current.change(next),
      cursorAt: (line) => {
        const starts = now.current.places?.steps ?? [];
        const at = starts.findLastIndex(({ heading }) => heading.line <= line);
        const step = at === -1 ? 'opening' : now.current.steps[at];
        if (step !== undefined && step !== now.current.shown) now.current.select(step);
      },
      undo: () => now.current.undo(),
      redo: () => now.current.redo(),
    });
    view.current = opened;
    return () => opened.close();
  }, []);

  useEffect(() => view.current?.setText(text), [text]);
  useEffect(() => view.current?.setProblems(problems), [problems]);

  // The step that is shown elsewhere is brought into view here, unless the cursor is in it already.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only when another step is shown, not for every edit of it.
  useEffect(() => {
    if (view.current?.hasFocus()) return;
    const at = steps.indexOf(shown);
    const line = shown === 'opening' ? 1 : places?.steps[at]?.heading.line;
    if (line !== undefined) view.current?.show(line, places?.steps[at + 1]?.heading.line);
  }, [shown, places === undefined]);

  useEffect(() => {
    if (goTo) view.current?.go(goTo.line, goTo.column);
  }, [goTo]);

  return <div className="tree-text" ref={place} />;
}
