import { describe, expect, it } from 'vitest';
import { predictedDensity, unknownDensity } from './reading-spread.ts';

/** The integral of a density over a range, by the trapezoid rule on a fine grid. */
function integral(density: (at: number) => number, from: number, to: number, steps = 40_000): number {
  const width = (to - from) / steps;
  let sum = (density(from) + density(to)) / 2;
  for (let i = 1; i < steps; i += 1) sum += density(from + i * width);
  return sum * width;
}

describe('the density of a reading', () => {
  it('is all of 1 over what can be read, for one house, for several, and for a switch between them', () => {
    for (const predicted of [[24], [22, 24, 27], [0, 24, 27], [0.1, 0.2, 26]]) {
      const shares = predicted.map(() => 1 / predicted.length);
      const density = (found: number) => predictedDensity('ac-voltage', Float64Array.from(predicted), shares, found, 0.3);
      expect(integral(density, -20, 60)).toBeCloseTo(1, 3);
    }
  });

  it('holds what lies between two houses of one fault, and not what a contact drops', () => {
    const between = (a: number, b: number, found: number) => predictedDensity('ac-voltage', Float64Array.of(a, b), [0.5, 0.5], found, 0.3);
    expect(between(21, 27, 24)).toBeGreaterThan(0.1);
    expect(between(0, 26, 13)).toBeLessThan(1e-6);
  });

  it('of OL is the share of houses that show it', () => {
    const row = Float64Array.of(Number.POSITIVE_INFINITY, 30, 30);
    expect(predictedDensity('resistance', row, [0.5, 0.25, 0.25], Number.POSITIVE_INFINITY, 0)).toBe(0.5);
  });
});

describe('the density where nothing is known', () => {
  it('is all of 1 over the scale of the meter', () => {
    expect(integral((found) => unknownDensity('ac-voltage', found), 0, 300)).toBeCloseTo(1, 4);
    // Ohms go over seven decades: by substitution, r = sinh t.
    const ohms = integral((t) => unknownDensity('resistance', Math.sinh(t)) * Math.cosh(t), 0, Math.asinh(4e7));
    expect(ohms + unknownDensity('resistance', Number.POSITIVE_INFINITY)).toBeCloseTo(1, 4);
  });
});
