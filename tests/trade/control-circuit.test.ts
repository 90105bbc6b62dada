import { describe, expect, test } from 'vitest';
import { computed, table } from './trade-checks.ts';

describe('a sensor of one curve on a control for another', () => {
  // Worked out from published tables of each curve by a spline of ln R over 1/T, not from the equations used here. At 120 °F the type 2
  // tables differ by a tenth of a degree.
  test.each([
    [-40, -50.2, -30.7],
    [-20, -28.4, -12.3],
    [0, -6.7, 6.2],
    [20, 15.0, 24.6],
    [32, 28.1, 35.6],
    [50, 47.6, 52.2],
    [70, 69.4, 70.6],
    [77, 77.0, 77.0],
    [100, 102.0, 98.1],
    [120, 123.8, 116.5],
  ])('at %d °F a type 2 sensor on a control for type 3 shows %d °F, and the other way round %d °F', (fahrenheit, twoOnThree, threeOnTwo) => {
    const shows = (sensor: string, control: string): number =>
      fahrenheit + computed(`ntc-error(10 kohm, ${sensor}, ${control}, ${fahrenheit} °F)`, 'F°');
    expect(Math.abs(shows('type-2', 'type-3') - twoOnThree)).toBeLessThan(0.15);
    expect(Math.abs(shows('type-3', 'type-2') - threeOnTwo)).toBeLessThan(0.15);
  });

  test.each([
    ['type-2', 'beta-3435', -12.3],
    ['beta-3435', 'type-2', 10.7],
    ['type-3', 'beta-3435', -5.2],
    ['beta-3435', 'type-3', 4.9],
  ])('at 0 °F a %s sensor on a control for %s shows %d °F', (sensor, control, shows) => {
    // Three published tables of the beta 3435 class lie half a degree apart at 0 °F.
    expect(Math.abs(computed(`ntc-error(10 kohm, ${sensor}, ${control}, 0 °F)`, 'F°') - shows)).toBeLessThan(0.5);
  });
});

describe('voltage drop of a cable', () => {
  const rows = table('wire-table.csv');

  test.each(rows)('$awg AWG, 100 ft, 1 A, at 68 °F, from the international wire table', (row) => {
    const printed = (2 * Number(row.ohm_per_1000ft_20C_solid_published)) / 10;
    expect(Math.abs(computed(`cable-drop(${row.awg} AWG, 100 ft, 1 A, 68 °F)`, 'V') / printed - 1)).toBeLessThan(0.0005);
  });

  test.each(rows.filter((row) => row.ohm_per_1000ft_75C_NEC_T8_solid_uncoated !== ''))(
    '$awg AWG, 100 ft, 1 A, at 167 °F, from NEC chapter 9 table 8',
    (row) => {
      const printed = (2 * Number(row.ohm_per_1000ft_75C_NEC_T8_solid_uncoated)) / 10;
      expect(Math.abs(computed(`cable-drop(${row.awg} AWG, 100 ft, 1 A, 167 °F)`, 'V') / printed - 1)).toBeLessThan(0.002);
    },
  );

  test('100 ft of 18 AWG pair and 0.25 A: 0.319 V (Ohm’s law on 6.385 Ω a thousand feet)', () => {
    expect(computed('cable-drop(18 AWG, 100 ft, 0.25 A, 68 °F)', 'V')).toBeCloseTo(0.319, 3);
  });
});

describe('loading of a transformer', () => {
  test('1.667 A at 24 V is all of 40 VA (arithmetic, and printed on labels as 1.67 A)', () => {
    expect(computed('transformer-loading(24 V * 1.6667 A, 40 VA)', '%')).toBeCloseTo(100, 1);
  });

  test('a distributor’s note: 8 VA on 75 VA is a lightly loaded transformer', () => {
    expect(computed('transformer-loading(8 VA, 75 VA)', '%')).toBeCloseTo(10.67, 2);
  });

  test('a fuse of 3 A passes 72 VA at 24 V: 180 % of a 40 VA transformer, and does not blow (arithmetic)', () => {
    expect(computed('transformer-loading(24 V * 3 A, 40 VA)', '%')).toBeCloseTo(180, 9);
  });
});
