import type { TestMatrix } from '../../engine/suspects/index.ts';

/** Numbers from 0 up to 1, the same for the same seed (Park and Miller's minimal standard generator, 1988). */
export function dice(seed: number): () => number {
  let state = (seed * 7919 + 1) % 2147483647;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

export type MatrixSize = { readonly states: number; readonly tests: number; readonly outcomes: number; readonly mostMinutes: number };

/** A matrix with random priors, whole-minute costs and outcomes. */
export function randomMatrix(roll: () => number, { states, tests, outcomes, mostMinutes }: MatrixSize): TestMatrix {
  const weights = Array.from({ length: states }, () => 0.05 + roll());
  const sum = weights.reduce((a, b) => a + b, 0);
  return {
    states: weights.map((_, i) => `f${i}`),
    priors: Float64Array.from(weights, (weight) => weight / sum),
    tests: Array.from({ length: tests }, (_, i) => `t${i}`),
    costs: Float64Array.from({ length: tests }, () => 1 + Math.floor(roll() * mostMinutes)),
    outcomes: Array.from({ length: tests }, () => Uint8Array.from({ length: states }, () => Math.floor(roll() * outcomes))),
  };
}

/** The least expected minutes by trying every test at every set, with nothing remembered and nothing cut: slow and plain. */
export function bruteForce({ priors, costs, outcomes }: TestMatrix): number {
  const least = (set: readonly number[]): number => {
    if (set.length < 2) return 0;
    let best = Number.POSITIVE_INFINITY;
    for (const [test, row] of outcomes.entries()) {
      const parts = new Map<number, number[]>();
      for (const state of set) parts.set(row[state] ?? 0, [...(parts.get(row[state] ?? 0) ?? []), state]);
      if (parts.size < 2) continue;
      const own = (costs[test] ?? 0) * set.reduce((sum, state) => sum + (priors[state] ?? 0), 0);
      best = Math.min(
        best,
        [...parts.values()].reduce((sum, part) => sum + least(part), own),
      );
    }
    return Number.isFinite(best) ? best : 0;
  };
  return least([...priors.keys()]);
}
