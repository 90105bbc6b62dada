import type { Bench } from '../../bench/index.ts';

/** One thing that could be wrong: faults of one bench together, or none. */
export type Hypothesis = { readonly bench: string; readonly faults: readonly string[]; readonly prior: number };

/** What is taken as known before anything is read. Shares of calls; common practice, no survey. */
export const PRIORS = {
  /** Nothing is wrong when the tech comes: it comes and goes. */
  nothingWrong: 0.03,
  /** It is something that the bench has no fault for. */
  unknown: 0.02,
  /** A circuit that has one fault has another one too. */
  second: 0.1,
} as const;

/**
 * What could be wrong, each bench (wiring) counted alike and its faults by weight. Faults that were repaired and did not help are out by
 * themselves; each may have been there beside another one.
 */
export function hypotheses(benches: Readonly<Record<string, Bench>>, repaired: readonly string[]): readonly Hypothesis[] {
  const names = Object.keys(benches);
  return names.flatMap((bench) => {
    const faults = Object.entries(benches[bench]?.faults ?? {});
    const whole = faults.reduce((sum, [, { weight }]) => sum + weight, 0);
    const share = 1 / names.length;
    const part = (weight: number): number => (whole > 0 ? (weight / whole) * (1 - PRIORS.nothingWrong - PRIORS.unknown) : 0);
    const left = faults.filter(([name]) => !repaired.includes(name));
    const pairs = faults
      .filter(([name]) => repaired.includes(name))
      .flatMap(([first, { weight }]) =>
        left.map(([second, other]) => ({ bench, faults: [first, second].sort(), prior: share * PRIORS.second * part(weight) * part(other.weight) })),
      );
    const sound = repaired.length > 0 ? [] : [{ bench, faults: [], prior: share * PRIORS.nothingWrong }];
    return [...sound, ...left.map(([name, { weight }]) => ({ bench, faults: [name], prior: share * part(weight) })), ...pairs];
  });
}
