import { leftWords } from './crew-words.ts';
import type { Gathering } from './use-gathering.ts';

/** How far the review of many walks is, and the way to stop it. */
export function GatheringProgress({ gathering: { state, now, stop } }: { readonly gathering: Gathering }) {
  const { left, found, reviewed } = now;
  const taken = reviewed.length + left.editionless + left.failed;
  return (
    <div className="gathering">
      {state === 'running' && (
        <>
          <p role="status">
            Reviewed {taken} of {found === 0 ? '…' : found}
          </p>
          <progress aria-label="Walks reviewed" {...(found > 0 ? { value: taken, max: found } : {})} />
          <button type="button" className="button button-quiet" onClick={stop}>
            Stop
          </button>
        </>
      )}
      {state !== 'running' &&
        leftWords(left).map((words) => (
          <p key={words} className="walk-hint">
            {words}
          </p>
        ))}
    </div>
  );
}
