import type { ComputeProblem } from '../formula/index.ts';
import { failure, type Result, success } from '../result.ts';
import { firstOutside, type ValidRange } from './ranges.ts';

const POWER_FACTOR_RANGE: ValidRange = { what: 'A power factor', from: 0, to: 1, unit: '' };

/** Reactive part of a load, VA·√(1 − pf²), in VAR: what coils borrow and give back. Loads of coils all count one way, and add. */
export function reactivePower(voltAmperes: number, powerFactor: number): Result<number, ComputeProblem> {
  const outside = firstOutside([POWER_FACTOR_RANGE, powerFactor]);
  if (outside) return failure(outside);
  if (!(voltAmperes >= 0)) return failure({ code: 'no-answer', what: 'a load below zero' });
  return success(voltAmperes * Math.sqrt(Math.max(0, 1 - powerFactor ** 2)));
}

/** VA of watts and VAR that were each added up: √(P² + Q²). Never more than the VA of the loads added as plain numbers. */
export function apparentPower(watts: number, reactive: number): Result<number, ComputeProblem> {
  if (!(watts >= 0)) return failure({ code: 'no-answer', what: 'a load below zero' });
  return success(Math.hypot(watts, reactive));
}

/**
 * Volts across a coil behind a source of `open` volts with `ohms` in series (transformer, cable, contacts). The coil is a constant
 * impedance, rated volts² / VA at its power factor. With a coil's inrush VA these are the volts that it has to pull in with.
 */
export function coilVolts(open: number, ohms: number, ratedVolts: number, voltAmperes: number, powerFactor: number): Result<number, ComputeProblem> {
  const outside = firstOutside([POWER_FACTOR_RANGE, powerFactor]);
  if (outside) return failure(outside);
  if (!(ratedVolts > 0 && voltAmperes > 0)) return failure({ code: 'no-answer', what: 'a coil without a rating' });
  if (!(ohms >= 0 && open >= 0)) return failure({ code: 'no-answer', what: 'a source of less than nothing' });
  const impedance = ratedVolts ** 2 / voltAmperes;
  const resistance = impedance * powerFactor;
  const reactance = impedance * Math.sqrt(Math.max(0, 1 - powerFactor ** 2));
  return success((open * impedance) / Math.hypot(resistance + ohms, reactance));
}
