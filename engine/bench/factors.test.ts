import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DenseFactor } from './dense-factor.ts';
import { SparseFactor } from './sparse-factor.ts';

const SIZE = 7;

const network = fc.array(
  fc.record({
    a: fc.nat(SIZE - 1),
    b: fc.nat(SIZE),
    re: fc.double({ min: 1e-3, max: 10, noNaN: true }),
    im: fc.double({ min: -10, max: 10, noNaN: true }),
  }),
  { minLength: 4, maxLength: 20 },
);

describe('sparse and dense factors', () => {
  test('solve any symmetric network: what is multiplied back is the right side', () => {
    fc.assert(
      fc.property(network, fc.nat(SIZE - 1), (branches, driven) => {
        const sparse = new SparseFactor(
          SIZE,
          branches.filter(({ b }) => b < SIZE).map(({ a, b }) => [a, b] as const),
        );
        const [re, im] = [new Float64Array(SIZE * SIZE), new Float64Array(SIZE * SIZE)];
        const add = (i: number, j: number, yr: number, yi: number): void => {
          re[i * SIZE + j] = (re[i * SIZE + j] ?? 0) + yr;
          im[i * SIZE + j] = (im[i * SIZE + j] ?? 0) + yi;
        };
        for (let i = 0; i < SIZE; i += 1) {
          sparse.add(i, 1e-3, 0);
          add(i, i, 1e-3, 0);
        }
        for (const { a, b, re: yr, im: yi } of branches) {
          if (a === b) continue;
          sparse.add(a, yr, yi);
          add(a, a, yr, yi);
          if (b === SIZE) continue;
          sparse.add(b, yr, yi);
          sparse.add(sparse.slot(a, b), -yr, -yi);
          add(b, b, yr, yi);
          add(a, b, -yr, -yi);
          add(b, a, -yr, -yi);
        }
        const dense = new DenseFactor(SIZE);
        sparse.dense(dense.re, dense.im);
        expect([...dense.re].map((value, i) => Math.abs(value - (re[i] ?? 0)) < 1e-12).every(Boolean)).toBe(true);
        for (const solve of [sparse, dense]) {
          expect(solve.factor()).toBe(-1);
          const [xr, xi] = [new Float64Array(SIZE), new Float64Array(SIZE)];
          xr[driven] = 1;
          xi[(driven + 1) % SIZE] = -2;
          solve.solve(xr, xi);
          for (let i = 0; i < SIZE; i += 1) {
            let [sr, si] = [0, 0];
            for (let j = 0; j < SIZE; j += 1) {
              sr += (re[i * SIZE + j] ?? 0) * (xr[j] ?? 0) - (im[i * SIZE + j] ?? 0) * (xi[j] ?? 0);
              si += (re[i * SIZE + j] ?? 0) * (xi[j] ?? 0) + (im[i * SIZE + j] ?? 0) * (xr[j] ?? 0);
            }
            expect(Math.abs(sr - (i === driven ? 1 : 0))).toBeLessThan(1e-8);
            expect(Math.abs(si - (i === (driven + 1) % SIZE ? -2 : 0))).toBeLessThan(1e-8);
          }
        }
      }),
      { numRuns: 300, seed: 11 },
    );
  });

  test('a matrix that only pivoting can do: the sparse order says so, the dense one does it', () => {
    // [[0, 1], [1, 0]]
    const sparse = new SparseFactor(2, [[0, 1]]);
    sparse.add(sparse.slot(0, 1), 1, 0);
    const dense = new DenseFactor(2);
    sparse.dense(dense.re, dense.im);
    expect(sparse.factor()).toBeGreaterThanOrEqual(0);
    expect(dense.factor()).toBe(-1);
    const [xr, xi] = [Float64Array.from([3, 5]), new Float64Array(2)];
    dense.solve(xr, xi);
    expect([...xr]).toEqual([5, 3]);
  });

  test('a singular matrix: both name the node', () => {
    const sparse = new SparseFactor(2, [[0, 1]]);
    for (const [slot, value] of [
      [0, 1],
      [1, 1],
      [sparse.slot(0, 1), -1],
    ] as const) {
      sparse.add(slot, value, 0);
    }
    const dense = new DenseFactor(2);
    sparse.dense(dense.re, dense.im);
    expect(sparse.factor()).toBeGreaterThanOrEqual(0);
    expect(dense.factor()).toBe(1);
  });
});
