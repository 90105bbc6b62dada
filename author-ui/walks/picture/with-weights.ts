import type { LearntWeight } from '../../../engine/review/index.ts';
import { editableBench } from '../../bench-page/bench-edits.ts';

type Weighed = Pick<LearntWeight, 'fault' | 'prior' | 'newWeight'>;

/** A bench's text with other weights, each beside the one from before calls were counted; only the lines of faults that change are written anew. */
export const withWeights = (text: string, weights: readonly Weighed[]): string =>
  weights.reduce((now, { fault, prior, newWeight }) => {
    const editable = editableBench(now);
    const before = editable?.bench.faults[fault];
    if (!editable || !before) return now;
    const { prior: _old, ...rest } = before;
    return editable.withEntry('faults', fault, { ...rest, weight: newWeight, ...(newWeight !== prior && { prior }) });
  }, text);

/** A bench's text with the weights from before any call was counted. */
export const withoutLearnt = (text: string, weights: readonly Weighed[]): string =>
  withWeights(
    text,
    weights.map((each) => ({ ...each, newWeight: each.prior })),
  );
