import type { Measure, MeasureEvidence } from '../walk-review.ts';
import type { MeasureGround } from './measure-ground.ts';

/** What the field app writes as the reason of a jump that it proposed, or that goes back to the tree's order. */
const PROPOSED = /^(suggested: |back to the tree)/;

const placeOf = ({ stays }: MeasureGround, seq: number): Pick<MeasureEvidence, 'tree' | 'step'> => {
  const stay = stays.findLast(({ from }) => from < seq);
  return stay ? { tree: stay.tree, step: stay.step } : {};
};

/** Steps left without an answer: by a jump that nothing proposed, or as 'cannot' without a word why. */
export function skipped(ground: MeasureGround): Measure {
  const evidence = ground.log.lines.flatMap(({ line: { seq, event } }): readonly MeasureEvidence[] => {
    if (event.type === 'jumped' && !PROPOSED.test(event.why ?? ''))
      return [{ seq, ...placeOf(ground, seq), values: { how: 'jumped', to: event.step } }];
    if (event.type === 'could-not' && (event.why ?? '').trim() === '') return [{ seq, ...placeOf(ground, seq), values: { how: 'cannot' } }];
    return [];
  });
  return { code: 'skipped', value: evidence.length, evidence };
}

export function couldNots(ground: MeasureGround): Measure {
  const evidence = ground.log.lines.flatMap(({ line: { seq, event } }): readonly MeasureEvidence[] =>
    event.type === 'could-not' ? [{ seq, ...placeOf(ground, seq), values: { why: event.why ?? '' } }] : [],
  );
  return { code: 'could-not', value: evidence.length, evidence };
}

export function acceptedTooClose(ground: MeasureGround): Measure {
  const evidence = ground.stays.flatMap(({ acceptedTooClose: accepted, to, tree, step, on }): readonly MeasureEvidence[] =>
    accepted ? [{ seq: to, tree, step, values: { on: on ?? '' } }] : [],
  );
  return { code: 'accepted-too-close', value: evidence.length, evidence };
}

export function minutes({ log }: MeasureGround): Measure {
  const last = log.lines.at(-1);
  if (last?.line.event.type !== 'closed') return { code: 'minutes', missing: 'not-closed' };
  const whole = log.lines.reduce((sum, { worked }) => sum + worked, 0);
  const paused = log.lines.reduce((sum, { since, worked }) => sum + since - worked, 0);
  return { code: 'minutes', value: whole, evidence: [{ seq: last.line.seq, values: { paused } }] };
}
