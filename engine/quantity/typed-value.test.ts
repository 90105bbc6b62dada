import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { QuantityKindName } from './quantity-kind.ts';
import { readTypedValue } from './typed-value.ts';

const si = (typed: string, kind: QuantityKindName, assumed?: string) => {
  const value = readTypedValue(typed, kind, assumed);
  return value.ok ? value.value.si : value.problem.code;
};

describe('what a tech types', () => {
  it.each<[string, QuantityKindName, string | undefined, number | 'open']>([
    ['24.1', 'ac-voltage', undefined, 24.1],
    ['24.1 V', 'ac-voltage', undefined, 24.1],
    ['24.1VAC', 'ac-voltage', undefined, 24.1],
    [' .5 ', 'ac-voltage', undefined, 0.5],
    ['450 mV', 'ac-voltage', undefined, 0.45],
    ['0.7 uA', 'dc-current', 'uA', 0.7e-6],
    ['0.7 µA', 'dc-current', 'uA', 0.7e-6],
    ['0.7 \u03bcA', 'dc-current', 'uA', 0.7e-6],
    ['0.7', 'dc-current', 'uA', 0.7e-6],
    ['-2.5 V', 'dc-voltage', undefined, -2.5],
    ['\u22122.5', 'dc-voltage', undefined, -2.5],
    ['1.2k', 'resistance', undefined, 1200],
    ['1.2 kΩ', 'resistance', undefined, 1200],
    ['1.2 k\u2126', 'resistance', undefined, 1200],
    ['3M', 'resistance', undefined, 3e6],
    ['3 meg', 'resistance', undefined, 3e6],
    ['OL', 'resistance', undefined, 'open'],
    ['ol', 'resistance', undefined, 'open'],
    ['O.L', 'continuity', undefined, 'open'],
    ['0L', 'resistance', undefined, 'open'],
    ['1e3', 'resistance', undefined, 1000],
    ['35 %', 'humidity', undefined, 0.35],
    ['35', 'humidity', undefined, 0.35],
    ['3.5', 'pressure', undefined, 3.5 * 249.08891],
    ['18', 'wire-gauge', undefined, 18],
    ['40 ft', 'length', undefined, 12.192],
    ['2', 'time', 'min', 120],
  ])('%j as %s', (typed, kind, assumed, expected) => {
    const value = si(typed, kind, assumed);
    if (expected === 'open' || typeof value !== 'number') expect(value).toBe(expected);
    else expect(value).toBeCloseTo(expected, 12);
  });

  // Fixed points of the scales: NIST SP 811, B.8/B.9.
  it('temperatures are on their scales', () => {
    expect(si('32', 'temperature')).toBeCloseTo(273.15, 9);
    expect(si('212 °F', 'temperature')).toBeCloseTo(373.15, 9);
    expect(si('-40 °C', 'temperature')).toBeCloseTo(si('-40', 'temperature') as number, 9);
    expect(si('18 F°', 'temperature-difference')).toBeCloseTo(10, 9);
  });

  it.each<[string, QuantityKindName, string]>([
    ['', 'ac-voltage', 'nothing-typed'],
    ['abc', 'ac-voltage', 'not-a-number'],
    ['24..1', 'ac-voltage', 'unit-not-known'],
    ['24 ohm', 'ac-voltage', 'wrong-unit'],
    ['24 flurbs', 'ac-voltage', 'unit-not-known'],
    ['-1', 'ac-voltage', 'below-possible'],
    ['-1 ohm', 'resistance', 'below-possible'],
    ['1,200', 'resistance', 'comma-in-number'],
    ['OL', 'ac-voltage', 'no-over-range'],
    ['-500 °F', 'temperature', 'below-possible'],
    ['Infinity', 'ac-voltage', 'not-a-number'],
    ['1e999', 'ac-voltage', 'not-a-number'],
  ])('%j as %s is refused: %s', (typed, kind, code) => {
    expect(si(typed, kind)).toBe(code);
  });

  it('keeps what was typed and the size of its last digit', () => {
    expect(readTypedValue(' 24.10 V', 'ac-voltage')).toMatchObject({ ok: true, value: { typed: ' 24.10 V', unit: 'V' } });
    const step = (typed: string, kind: QuantityKindName) => {
      const value = readTypedValue(typed, kind);
      return value.ok ? value.value.resolution : Number.NaN;
    };
    expect(step('24.1', 'ac-voltage')).toBeCloseTo(0.1, 12);
    expect(step('1.25k', 'resistance')).toBeCloseTo(10, 12);
    expect(step('24', 'ac-voltage')).toBe(1);
  });

  it('never throws, whatever is typed', () => {
    fc.assert(
      fc.property(
        fc.string({ maxLength: 30 }),
        fc.constantFrom<QuantityKindName>('ac-voltage', 'resistance', 'temperature', 'wire-gauge'),
        (typed, kind) => {
          const value = readTypedValue(typed, kind);
          expect(value.ok ? Number.isFinite(value.value.si === 'open' ? 0 : value.value.si) : value.problem.code).toBeTruthy();
        },
      ),
      { seed: 7, numRuns: 2000 },
    );
  });
});
