import { useEffect, useId, useRef } from 'react';
import { clockWords } from '../walk-words.ts';
import { lineWords } from './line-slider.tsx';
import type { Frame } from './replay-frame.ts';

type LineListProps = { readonly frames: readonly Frame[]; readonly at: number; readonly go: (at: number) => void };

/** Every line of the log; the one that is shown is kept in view within the list. */
export function LineList({ frames, at, go }: LineListProps) {
  const title = useId();
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    const box = list.current;
    const row = box?.children[at];
    if (!box || !(row instanceof HTMLElement)) return;
    // The list is what its rows are placed in.
    const top = row.offsetTop;
    if (top < box.scrollTop || top + row.offsetHeight > box.scrollTop + box.clientHeight) box.scrollTo({ top: top - box.clientHeight / 3 });
  }, [at]);
  return (
    <section className="walk-lines" aria-labelledby={title}>
      <h2 id={title}>The log</h2>
      <ol ref={list}>
        {frames.map((frame, index) => (
          <li key={frame.seq} aria-current={index === at ? 'step' : undefined}>
            <button type="button" onClick={() => go(index)}>
              <time dateTime={frame.time}>{clockWords(frame.time)}</time> {lineWords(frames, index)}
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
