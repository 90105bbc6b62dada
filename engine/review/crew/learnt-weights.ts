import type { Bench } from '../../bench/index.ts';
import { betaInterval } from './intervals.ts';

/** How often each fault was confirmed on calls. */
export type ConfirmedCount = { readonly fault: string; readonly times: number };

export type LearntWeight = {
  readonly fault: string;
  /** As the bench has it now. */
  readonly weight: number;
  /** As it was before any call was counted into it, and as a share of all of those. */
  readonly prior: number;
  readonly share: number;
  readonly times: number;
  /** The share once the confirmed calls are counted in, with its 95 % interval. */
  readonly learnt: number;
  readonly low: number;
  readonly high: number;
  /** The weight that says so, on the bench's own scale. */
  readonly newWeight: number;
};

/** The bench's prior weights count as much as this many confirmed calls. */
export const PRIOR_CALLS = 20;

/**
 * Fault weights learnt from confirmed findings: a Dirichlet whose prior is the bench's weights from before any call was counted, worth `calls` calls, and
 * whose counts are all the confirmed faults. So it comes to the same whenever and however often it is taken into the bench, and taking a confirmation back
 * gives the weights as if it had never been. Faults that the bench does not have are left out.
 */
export function learntWeights(bench: Pick<Bench, 'faults'>, confirmed: readonly ConfirmedCount[], calls = PRIOR_CALLS): readonly LearntWeight[] {
  const faults = Object.entries(bench.faults).map(([fault, { weight, prior = weight }]) => ({ fault, weight, prior }));
  const whole = faults.reduce((sum, { prior }) => sum + prior, 0);
  const times = (fault: string): number => confirmed.reduce((sum, each) => (each.fault === fault ? sum + each.times : sum), 0);
  const counted = faults.reduce((sum, { fault }) => sum + times(fault), 0);
  return faults.map(({ fault, weight, prior }) => {
    const share = whole > 0 ? prior / whole : 1 / faults.length;
    const alpha = calls * share + times(fault);
    const learnt = calls + counted > 0 ? alpha / (calls + counted) : share;
    return {
      fault,
      weight,
      prior,
      share,
      times: times(fault),
      learnt,
      ...betaInterval(alpha, calls + counted - alpha),
      newWeight: rounded(learnt * (whole > 0 ? whole : faults.length)),
    };
  });
}

// A weight is written by hand: three figures say all that is known.
const rounded = (weight: number): number => Number(weight.toPrecision(3));
