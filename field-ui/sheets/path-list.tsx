import type { ReactNode } from 'react';
import { type CompiledStep, type PathEntry, stepKey } from '../../engine/walk/index.ts';
import { MiniScale } from '../../shared/ui/mini-scale.tsx';
import { shownValue } from '../pad/typed-echo.ts';
import { wayWords } from '../words/way-words.ts';
import './path-list.css';

type PathListProps = {
  readonly path: readonly PathEntry[];
  readonly steps: ReadonlyMap<string, CompiledStep>;
  /** Makes the entries that are done ones that can be tapped. */
  readonly onTap?: ((index: number) => void) | undefined;
  /** What stands under an entry, by its place. */
  readonly under?: (index: number) => ReactNode;
};

/** The path so far: each step with what was found, each reading on its small scale. */
export function PathList({ path, steps, onTap, under }: PathListProps) {
  return (
    <ol className="path-list">
      {path.map((entry, index) => {
        const line = <PathLine entry={entry} step={steps.get(stepKey(entry.tree, entry.step))} />;
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: an entry of a path is known by its place.
          <li key={index} data-open={entry.on === undefined || undefined}>
            {onTap && entry.on !== undefined ? (
              <button type="button" className="path-tap" onClick={() => onTap(index)}>
                {line}
              </button>
            ) : (
              line
            )}
            {under?.(index)}
          </li>
        );
      })}
    </ol>
  );
}

function PathLine({ entry, step }: { readonly entry: PathEntry; readonly step: CompiledStep | undefined }) {
  const { judged } = entry;
  const gauge = step?.gauge;
  return (
    <span className="path-line">
      <span className="path-title">{entry.title}</span>
      {judged && <span className="path-value">{shownValue(judged)}</span>}
      {judged && gauge && (
        <span className="path-scale">
          <MiniScale bands={judged.bands} kind={gauge.step.takes} si={judged.si} />
        </span>
      )}
      <span className="path-way">
        {entry.on === undefined ? 'you are here' : wayWords(entry, gauge)}
        {entry.acceptedTooClose && ', taken though too close to call'}
        {entry.jumped && ', out of the tree’s order'}
      </span>
    </span>
  );
}
