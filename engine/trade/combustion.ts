import type { ComputeProblem } from '../formula/index.ts';
import { failure, type Result, success } from '../result.ts';
import { firstOutside, type ValidRange } from './ranges.ts';

// Share of oxygen in dry air as combustion analyzers use it.
const OXYGEN_IN_AIR = 0.209;
const CO_RANGE: ValidRange = { what: 'A carbon monoxide reading', from: 0, to: 100_000, unit: 'ppm' };
// Nearer to room air, a tenth of a per cent on the oxygen cell changes the answer by a ninth and more: the sample is not flue gas.
const OXYGEN_RANGE: ValidRange = { what: 'An oxygen reading', from: 0, to: 20, unit: '%' };

/** Carbon monoxide as if no excess air had thinned it, CO × 20.9 / (20.9 − O2): shares of the dry sample, 0 to 1. */
export function airFreeCarbonMonoxide(carbonMonoxide: number, oxygen: number): Result<number, ComputeProblem> {
  const outside = firstOutside([CO_RANGE, carbonMonoxide], [OXYGEN_RANGE, oxygen]);
  return outside ? failure(outside) : success((carbonMonoxide * OXYGEN_IN_AIR) / (OXYGEN_IN_AIR - oxygen));
}
