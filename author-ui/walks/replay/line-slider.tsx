import { useId } from 'react';
import { clockWords, minutesWords } from '../walk-words.ts';
import { backTitle, eventWords } from './event-words.ts';
import type { Frame } from './replay-frame.ts';

/** A line in words: when it was, what was done, at which step. */
export function lineWords(frames: readonly Frame[], at: number): string {
  const frame = frames[at];
  if (!frame) return '';
  const before = frames[at - 1];
  return `${eventWords(frame.event, backTitle(frame.event, before?.path), before?.scale?.unit)}${before?.step ? `, at “${before.step.title}”` : ''}`;
}

type LineSliderProps = { readonly frames: readonly Frame[]; readonly at: number; readonly go: (at: number) => void };

/** The lines of a log from first to last; arrows step, Home and End go to its ends. */
export function LineSlider({ frames, at, go }: LineSliderProps) {
  const id = useId();
  const frame = frames[at];
  if (!frame) return null;
  const words = lineWords(frames, at);
  return (
    <div className="walk-slider">
      <button type="button" className="button button-quiet" disabled={at === 0} onClick={() => go(at - 1)}>
        Back
      </button>
      <div className="walk-slider-middle">
        <label htmlFor={id}>
          Line {at + 1} of {frames.length}
        </label>
        <input
          id={id}
          type="range"
          min={0}
          max={frames.length - 1}
          value={at}
          aria-valuetext={`Line ${at + 1} of ${frames.length}, ${clockWords(frame.time)}, ${words}`}
          onChange={(event) => go(Number(event.target.value))}
        />
      </div>
      <button type="button" className="button button-quiet" disabled={at === frames.length - 1} onClick={() => go(at + 1)}>
        Next
      </button>
      <p className="walk-moment">
        <strong>{words}</strong> <span>{clockWords(frame.time)}</span> <span>{minutesWords(frame.minutes)} into the call</span>
      </p>
    </div>
  );
}
