import { describe, expect, it, test } from 'vitest';
import { expectedEntropy, repairCost, repairOrder } from '../../engine/suspects/index.ts';

// De Kleer and Williams, "Diagnosing Multiple Faults", Artificial Intelligence 32 (1987): three multipliers, X = A·C, Y = B·D, Z = C·E, and two adders,
// F = X + Y, G = Y + Z; A = 3, B = 2, C = 2, D = 3, E = 3; F reads 10 and G 12; each part fails with probability 0.01. Figures recomputed.
const PARTS = ['M1', 'M2', 'M3', 'A1', 'A2'] as const;

type Candidate = { readonly failed: string; readonly prior: number; readonly predicts: readonly (number | undefined)[] };

/** X, Y and Z as the parts that work fix them; undefined where those contradict each other. */
function predicted(works: (part: string) => boolean): (number | undefined)[] | undefined {
  let [x, y, z] = [works('M1') ? 6 : undefined, works('M2') ? 6 : undefined, works('M3') ? 6 : undefined];
  for (let round = 0; round < 3; round += 1) {
    if (works('A1')) {
      if (x !== undefined && y !== undefined && x + y !== 10) return undefined;
      if (x === undefined && y !== undefined) x = 10 - y;
      else if (y === undefined && x !== undefined) y = 10 - x;
    }
    if (works('A2')) {
      if (y !== undefined && z !== undefined && y + z !== 12) return undefined;
      if (z === undefined && y !== undefined) z = 12 - y;
      else if (y === undefined && z !== undefined) y = 12 - z;
    }
  }
  return [x, y, z];
}

function candidates(): readonly Candidate[] {
  return Array.from({ length: 2 ** PARTS.length }, (_, bits) => PARTS.filter((_, i) => (bits >> i) & 1)).flatMap((failed) => {
    const predicts = predicted((part) => !failed.some((name) => name === part));
    return predicts ? [{ failed: failed.join(), prior: 0.01 ** failed.length * 0.99 ** (PARTS.length - failed.length), predicts }] : [];
  });
}

describe('the minimum-entropy probe', () => {
  const all = candidates();
  const whole = all.reduce((sum, { prior }) => sum + prior, 0);

  test.each([
    ['M1', 0.478026],
    ['A1', 0.478026],
    ['M2,M3', 0.004829],
    ['M2,A2', 0.004829],
  ])('P(%s | F, G)', (failed, probability) => {
    expect((all.find((candidate) => candidate.failed === failed)?.prior ?? 0) / whole).toBeCloseTo(probability, 6);
  });

  it('expects .3186, 1.2779 and 1.3120 bits after X, Y and Z: so X', () => {
    const after = [0, 1, 2].map((point) => {
      // A candidate that predicts nothing there gives a value that no other does.
      const values = [...new Set(all.map(({ predicts }) => predicts[point]))];
      return expectedEntropy(
        all.map(({ prior }) => prior),
        values.map((value) => all.map(({ predicts }) => Number(predicts[point] === value))),
      );
    });
    expect(after[0]).toBeCloseTo(0.3186, 4);
    expect(after[1]).toBeCloseTo(1.2779, 4);
    expect(after[2]).toBeCloseTo(1.312, 4);
  });
});

// Kadane and Simon, "Optimal strategies for a class of constrained sequential problems", Annals of Statistics 5 (1977): highest p/C first. Numbers computed by hand.
describe('the order to try repairs in', () => {
  const repairs = [
    { probability: 0.45, cost: 30 },
    { probability: 0.25, cost: 5 },
    { probability: 0.2, cost: 12 },
    { probability: 0.1, cost: 3 },
  ];

  it('2, 4, 3, 1 at 28.55', () => {
    expect(repairOrder(repairs).map((i) => i + 1)).toEqual([2, 4, 3, 1]);
    expect(repairCost(repairs, repairOrder(repairs))).toBeCloseTo(28.55, 9);
  });

  it('beats likeliest first (36.65), cheapest first (28.8), and every other order', () => {
    expect(repairCost(repairs, [0, 1, 2, 3])).toBeCloseTo(36.65, 9);
    expect(repairCost(repairs, [3, 1, 2, 0])).toBeCloseTo(28.8, 9);
    const orders = (left: readonly number[]): number[][] =>
      left.length === 0 ? [[]] : left.flatMap((i) => orders(left.filter((j) => j !== i)).map((rest) => [i, ...rest]));
    for (const order of orders([0, 1, 2, 3])) expect(repairCost(repairs, order)).toBeGreaterThanOrEqual(28.55 - 1e-9);
  });
});
