import type { ComputeProblem } from '../formula/index.ts';
import { failure, type Result, success } from '../result.ts';

export type TransformerModel = {
  /** No-load secondary volts per primary volt. */
  readonly ratio: number;
  /** Ω in series with the secondary; what the regulation comes from. */
  readonly seriesOhms: number;
  /** Ω across the primary at the rated frequency. */
  readonly magnetising: number;
  /** DC ohms of the windings: the series resistance split in half, the primary's half by the square of the ratio. */
  readonly primaryOhms: number;
  readonly secondaryOhms: number;
};

/** Share of the rated volt-amperes that a small control transformer draws unloaded, where its label does not say. Common practice. */
export const MAGNETISING_SHARE = 0.1;

/**
 * A control transformer from its label. Ideal ratio no-load volts : primary volts; series resistance
 * (no-load − rated volts) / (VA / rated volts); magnetising reactance primary volts² / no-load VA. Volts rms, VA.
 */
export function transformerModel(
  primaryVolts: number,
  ratedVolts: number,
  voltAmperes: number,
  noLoadVolts: number,
  noLoadVoltAmperes = MAGNETISING_SHARE * voltAmperes,
): Result<TransformerModel, ComputeProblem> {
  if (![primaryVolts, ratedVolts, voltAmperes, noLoadVoltAmperes].every((value) => value > 0 && Number.isFinite(value))) {
    return failure({ code: 'no-answer', what: 'a transformer without a rating' });
  }
  if (!(noLoadVolts > ratedVolts && noLoadVolts <= 2 * ratedVolts)) {
    return failure({
      code: 'out-of-range',
      what: 'no-load volts of a transformer of this rating',
      value: noLoadVolts,
      from: ratedVolts,
      to: 2 * ratedVolts,
      unit: 'V',
    });
  }
  const ratio = noLoadVolts / primaryVolts;
  const seriesOhms = (noLoadVolts - ratedVolts) / (voltAmperes / ratedVolts);
  return success({
    ratio,
    seriesOhms,
    magnetising: primaryVolts ** 2 / noLoadVoltAmperes,
    primaryOhms: seriesOhms / 2 / ratio ** 2,
    secondaryOhms: seriesOhms / 2,
  });
}

/**
 * Regulation with the full-load volts below the line, (no-load − full-load) / full-load, as trade books print it. The other
 * definition in print divides by the no-load volts: 100 V falling to 95 V is 5.26 % here and 5 % there.
 */
export const transformerRegulation = (noLoadVolts: number, fullLoadVolts: number): number => (noLoadVolts - fullLoadVolts) / fullLoadVolts;

/**
 * What everything on a transformer draws, over its rating: 1 is all that it can give. Both in VA, added as plain numbers, which is never
 * less than the true sum, for coils and electronics draw at different phases.
 */
export function transformerLoading(voltAmperes: number, ratedVoltAmperes: number): Result<number, ComputeProblem> {
  if (!(ratedVoltAmperes > 0 && Number.isFinite(ratedVoltAmperes))) return failure({ code: 'no-answer', what: 'a transformer without a rating' });
  if (!(voltAmperes >= 0)) return failure({ code: 'no-answer', what: 'a load below zero' });
  return success(voltAmperes / ratedVoltAmperes);
}
