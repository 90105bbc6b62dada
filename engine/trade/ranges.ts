import type { ComputeProblem } from '../formula/index.ts';
import { fromSi, unitOf } from '../quantity/index.ts';
import { failure, type Result, success } from '../result.ts';

/** The values for which a source speaks, in `unit`, the unit in which a tech would be told of them. */
export type ValidRange = { readonly what: string; readonly from: number; readonly to: number; readonly unit: string };

/** Of houses that people live in, and of the weather around them. Common practice. */
export const INDOOR_RANGE: ValidRange = { what: 'An indoor temperature', from: 40, to: 100, unit: '°F' };
export const OUTDOOR_RANGE: ValidRange = { what: 'An outdoor temperature', from: -60, to: 130, unit: '°F' };

/** Common practice: a house that is looked after changes its air 0.2 to 2 times an hour; past 20 it is no house with its doors shut. */
export const AIR_CHANGES_RANGE: ValidRange = { what: 'An air change rate', from: 0, to: 20, unit: 'ACH' };

/** The value (SI) where it lies in the range; else `out-of-range`, in the range's unit. Not-a-number lies in no range. */
export function within(range: ValidRange, si: number): Result<number, ComputeProblem> {
  const unit = unitOf(range.unit);
  const value = unit ? fromSi(si, unit) : si;
  // A bound that was converted to SI and back is still in.
  const grace = 1e-9 * Math.max(Math.abs(range.from), Math.abs(range.to));
  if (value >= range.from - grace && value <= range.to + grace) return success(si);
  return failure({ code: 'out-of-range', value, ...range });
}

/** The first of the pairs that is out of its range. */
export function firstOutside(...pairs: readonly (readonly [range: ValidRange, si: number])[]): ComputeProblem | undefined {
  for (const [range, si] of pairs) {
    const result = within(range, si);
    if (!result.ok) return result.problem;
  }
  return undefined;
}
