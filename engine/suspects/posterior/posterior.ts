import type { BenchShows } from '../observe/bench-shows.ts';
import type { Evidence } from './evidence.ts';
import { type Hypothesis, PRIORS } from './hypotheses.ts';
import { predictedDensity, unknownDensity } from './reading-spread.ts';

/** A share of readings that a sound model gets wrong: a slip of the probe, a part that the bench leaves out. */
export const FLOOR = 0.01;

/** How well one piece of evidence fits: its density where a hypothesis holds, with the floor, over that where nothing is known. 1 where the bench cannot tell. */
export function fitOf(shows: BenchShows, { probe, circuit, found, halfWidth, repaired }: Evidence, { faults }: Hypothesis): number {
  const present = repaired.length === 0 ? faults : faults.filter((fault) => !repaired.includes(fault));
  const row = shows.shows(probe, circuit, present);
  const shares = shows.houses.map(({ share }) => share);
  if (row.every(Number.isNaN)) return 1;
  const told = row.reduce((sum, value, i) => sum + (Number.isNaN(value) ? 0 : (shares[i] ?? 0)), 0);
  if (probe.kind === 'look') {
    const seen = row.reduce((sum, value, i) => sum + (value === found ? (shares[i] ?? 0) : 0), 0) / told;
    return ((1 - FLOOR) * seen + FLOOR * 0.5) / 0.5;
  }
  const nothing = unknownDensity(probe.takes, found);
  return ((1 - FLOOR) * (predictedDensity(probe.takes, row, shares, found, halfWidth) / told) + FLOOR * nothing) / nothing;
}

// What no bench knows is in part a circuit that can show anything, and in part one that shows what circuits of this kind do.
export const SHOWS_ANYTHING = 0.3;

export type Posterior = {
  /** Probabilities; with `unknown` they sum to 1. In the order of the hypotheses given. */
  readonly probabilities: Float64Array;
  /** Something that no bench given knows. */
  readonly unknown: number;
  /** fits[piece of evidence][hypothesis], as `fitOf`. */
  readonly fits: readonly Float64Array[];
  /** For each piece, the mean of its fits over what is possible now; below 1 it speaks for something unknown. */
  readonly expected: readonly number[];
};

/** P(hypothesis | evidence) by Bayes: prior times the fit of each piece. */
export function posteriorOf(benches: ReadonlyMap<string, BenchShows>, all: readonly Hypothesis[], evidence: readonly Evidence[]): Posterior {
  const fits = evidence.map((piece) =>
    Float64Array.from(all, (hypothesis) => {
      const shows = benches.get(hypothesis.bench);
      return shows ? fitOf(shows, piece, hypothesis) : 1;
    }),
  );
  const logs = Float64Array.from(all, ({ prior }, i) => fits.reduce((sum, row) => sum + Math.log(row[i] ?? 1), Math.log(prior)));
  const prior = all.reduce((sum, hypothesis) => sum + hypothesis.prior, 0);
  const unknownLog = fits.reduce((sum, row) => {
    const usual = row.reduce((mean, value, i) => mean + ((all[i]?.prior ?? 0) / prior) * value, 0);
    return sum + Math.log(SHOWS_ANYTHING + (1 - SHOWS_ANYTHING) * usual);
  }, Math.log(PRIORS.unknown));
  const top = logs.reduce((most, log) => Math.max(most, log), unknownLog);
  const weights = logs.map((log) => Math.exp(log - top));
  const unknown = Math.exp(unknownLog - top);
  const whole = weights.reduce((sum, weight) => sum + weight, unknown);
  const probabilities = weights.map((weight) => weight / whole);
  const known = 1 - unknown / whole;
  const expected = fits.map((row) => (known > 0 ? row.reduce((mean, value, i) => mean + ((probabilities[i] ?? 0) / known) * value, 0) : 0));
  return { probabilities, unknown: unknown / whole, fits, expected };
}
