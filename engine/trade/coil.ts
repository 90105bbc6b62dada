import type { ComputeProblem } from '../formula/index.ts';
import { failure, type Result, success } from '../result.ts';

export type CoilImpedance = {
  /** Ω, of the winding. */
  readonly resistance: number;
  /** Ω, at the frequency of the rating. */
  readonly reactance: number;
  readonly impedance: number;
};

/**
 * A coil from its rating: |Z| = V²/VA, X = √(|Z|² − R²). Volts (rms), volt-amperes, and the winding's DC ohms. What a meter reads on
 * ohms is R alone; V/R would predict several times the current that flows.
 */
export function coilImpedance(volts: number, voltAmperes: number, resistance: number): Result<CoilImpedance, ComputeProblem> {
  const impedance = volts ** 2 / voltAmperes;
  if (!(impedance > 0 && Number.isFinite(impedance))) return failure({ code: 'no-answer', what: 'a coil without a rating' });
  if (!(resistance >= 0 && resistance <= impedance)) {
    return failure({
      code: 'out-of-range',
      what: 'winding resistance of a coil of this rating',
      value: resistance,
      from: 0,
      to: impedance,
      unit: 'ohm',
    });
  }
  return success({ resistance, reactance: Math.sqrt(impedance ** 2 - resistance ** 2), impedance });
}

/** L = X / (2πf), henry. */
export const coilInductance = (reactance: number, hertz: number): number => reactance / (2 * Math.PI * hertz);
