import type { ComputeProblem } from '../formula/index.ts';
import { failure, type Result, success } from '../result.ts';

// Resistivity of annealed copper at 20 °C and its temperature coefficient there: the International Annealed Copper Standard
// (IEC 60028; NBS Handbook 100). Elemental copper of the physics books is 2.7 % lower and is not what wire is made of.
export const COPPER_RESISTIVITY = 1.7241e-8;
export const COPPER_COEFFICIENT = 0.00393;
const TWENTY_CELSIUS = 293.15;

const GAUGE_RANGE = { from: 0, to: 40 } as const;
// Below the range of control wiring and above what its insulation survives, the linear coefficient is not claimed.
const CELSIUS_RANGE = { from: -60, to: 200 } as const;

/** Diameter in metres of a solid round wire: d = 0.005 in × 92^((36 − n)/39), ASTM B258. */
export function wireDiameter(gauge: number): Result<number, ComputeProblem> {
  if (!(gauge >= GAUGE_RANGE.from && gauge <= GAUGE_RANGE.to)) {
    return failure({ code: 'out-of-range', what: 'wire gauge', value: gauge, from: GAUGE_RANGE.from, to: GAUGE_RANGE.to, unit: 'AWG' });
  }
  return success(0.005 * 0.0254 * 92 ** ((36 - gauge) / 39));
}

/**
 * Ohms of one solid copper conductor, R = ρ·L/A·(1 + α(t − 20 °C)); `length` in metres, one way (a pair out and back has twice it),
 * `kelvin` the copper's temperature. Within 0.03 % of the international wire table at 20 °C, 0.13 % of NEC chapter 9 table 8 (solid) at
 * 75 °C; stranded wire has about 2 % more, and published tables differ by that much.
 */
export function wireOhms(gauge: number, length: number, kelvin = TWENTY_CELSIUS): Result<number, ComputeProblem> {
  const diameter = wireDiameter(gauge);
  if (!diameter.ok) return diameter;
  const celsius = kelvin - 273.15;
  if (!(celsius >= CELSIUS_RANGE.from && celsius <= CELSIUS_RANGE.to)) {
    return failure({ code: 'out-of-range', what: 'temperature of a copper wire', value: celsius, ...CELSIUS_RANGE, unit: '°C' });
  }
  if (!(length >= 0)) return failure({ code: 'no-answer', what: 'a wire of negative length' });
  const area = (Math.PI / 4) * diameter.value ** 2;
  return success(((COPPER_RESISTIVITY * length) / area) * (1 + COPPER_COEFFICIENT * (kelvin - TWENTY_CELSIUS)));
}

/**
 * Volts lost along a pair, out and back: 2·R·I. `length` in metres, one way; `kelvin` the copper's temperature. Resistance only: at 60 Hz
 * the reactance of a pair of 18 AWG or thinner is below a hundredth of it.
 */
export function cableDrop(gauge: number, length: number, amperes: number, kelvin: number): Result<number, ComputeProblem> {
  if (!(amperes >= 0)) return failure({ code: 'no-answer', what: 'a current below zero' });
  const ohms = wireOhms(gauge, length, kelvin);
  return ohms.ok ? success(2 * ohms.value * amperes) : ohms;
}
