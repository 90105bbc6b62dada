import { useEffect, useId, useState } from 'react';
import { type Confirmation, type Measure, measureWords, missingWords, type WalkReview } from '../../../engine/review/index.ts';
import type { Edition } from '../../../engine/walk/index.ts';
import { walksDb } from '../source/use-walk-sources.ts';
import { minutesWords } from '../walk-words.ts';
import { ReviewDesk } from './review-desk.ts';

export type ReviewNow = { readonly review?: WalkReview; readonly failed?: string };

/** The review of one walk, worked out aside; again when its finding is confirmed. */
export function useReview(
  walk: string,
  edition: Edition | undefined,
  hash: string,
  lines: readonly unknown[] | undefined,
  confirmation: Confirmation | undefined,
): ReviewNow {
  const [now, setNow] = useState<ReviewNow>({});
  const [desk, setDesk] = useState<ReviewDesk>();
  useEffect(() => {
    const made = new ReviewDesk(walksDb);
    setDesk(made);
    return () => made.stop();
  }, []);
  useEffect(() => {
    if (!desk || !edition || !lines) return;
    let left = false;
    void desk.review({ walk, edition, hash, lines, confirmation }).then((answer) => {
      if (!left) setNow(answer.ok ? { review: answer.value } : { failed: answer.problem });
    });
    return () => {
      left = true;
    };
  }, [desk, walk, edition, hash, lines, confirmation]);
  return now;
}

type WalkMeasuresProps = { readonly now: ReviewNow; readonly go: (seq: number) => void };

/** What the measures make of this walk; a press on what made one goes to that line. */
export function WalkMeasures({ now: { review, failed }, go }: WalkMeasuresProps) {
  const title = useId();
  return (
    <section className="walk-measures" aria-labelledby={title} aria-busy={!review && failed === undefined}>
      <h2 id={title}>Measures of this walk</h2>
      {failed !== undefined && <p role="alert">They could not be worked out: {failed}. The replay above is not touched by that.</p>}
      {!review && failed === undefined && <p className="walk-hint">Being worked out…</p>}
      {review && (
        <ul className="measure-list">
          {review.measures.map((measure) => (
            <MeasureItem key={measure.code} measure={measure} go={go} />
          ))}
        </ul>
      )}
    </section>
  );
}

export function valueWords(measure: Measure): string {
  if ('missing' in measure) return '–';
  const { unit } = measureWords(measure.code);
  if (unit === 'min') return minutesWords(measure.value);
  if (unit === 'times') return String(measure.value);
  return measure.value > 0 ? 'yes' : 'no';
}

function MeasureItem({ measure, go }: { readonly measure: Measure; readonly go: (seq: number) => void }) {
  const { name, definition, says } = measureWords(measure.code);
  const isPlain = 'missing' in measure || measure.value === 0;
  return (
    <li data-plain={isPlain || undefined}>
      <p className="measure-value">
        <strong>{valueWords(measure)}</strong> <span>{name}</span>
      </p>
      <p className="measure-definition">{definition}</p>
      {'missing' in measure ? (
        <p className="walk-hint">{missingWords(measure.missing)}</p>
      ) : (
        measure.evidence.length > 0 && (
          <ul className="measure-evidence">
            {measure.evidence.map((evidence) => (
              <li key={`${evidence.seq} ${evidence.step ?? ''} ${JSON.stringify(evidence.values ?? {})}`}>
                <button type="button" className="button-plain" onClick={() => go(evidence.seq)}>
                  Line {evidence.seq + 1}
                </button>{' '}
                {says(evidence)}
              </li>
            ))}
          </ul>
        )
      )}
    </li>
  );
}
