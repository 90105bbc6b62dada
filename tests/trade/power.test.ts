import { describe, expect, test } from 'vitest';
import { computed, reasonOf } from './trade-checks.ts';

describe('true, reactive and apparent power', () => {
  // Lessons in Electric Circuits, volume II: 120 V, 60 Hz, 60 Ω and 160 mH in series: P 119.365 W, Q 119.998 VAR, S 169.256 VA.
  test('of the book’s load', () => {
    expect(computed('apparent-power(119.365 W, 119.998 VA)', 'VA')).toBeCloseTo(169.256, 2);
    expect(computed('reactive-power(169.256 VA, 119.365 / 169.256)', 'VA')).toBeCloseTo(119.998, 2);
  });

  test('of a 24 V coil of 38 Ω that takes 0.19 A: 4.56 VA, power factor 0.30 (from 126.3 Ω of impedance), 4.35 VAR', () => {
    expect(computed('reactive-power(24 V * 0.19 A, 38 ohm / (24 V / 0.19 A))', 'VA')).toBeCloseTo(Math.sqrt(4.56 ** 2 - 1.3718 ** 2), 3);
  });

  test('a coil and a load of electronics add as vectors: 10 VA at 0.3 and 10 VA at 1 are 16.1 VA, not 20 (by the cosine rule)', () => {
    const sum = 'apparent-power(10 VA * 0.3 + 10 VA, reactive-power(10 VA, 0.3) + reactive-power(10 VA, 1))';
    expect(computed(sum, 'VA')).toBeCloseTo(Math.sqrt(100 + 100 + 200 * 0.3), 9);
    expect(computed(`transformer-loading(${sum}, 20 VA)`, '%')).toBeCloseTo(80.62, 2);
  });
});

describe('volts that reach a coil', () => {
  test('28 V behind 2.4 Ω, 100 ft of 18 AWG there and back, a contact of 0.05 Ω, a coil of 38 Ω and 0.3195 H: 27.79 V (ngspice and numpy)', () => {
    const omega = 2 * Math.PI * 60;
    const impedance = Math.hypot(38, omega * 0.3195);
    const coil = `${(24 ** 2 / impedance).toFixed(9)} VA, ${(38 / impedance).toFixed(9)}`;
    expect(computed(`coil-volts(28 V, 2.4 ohm + 0.6385 ohm + 0.05 ohm, 24 V, ${coil})`, 'V')).toBeCloseTo(27.79, 2);
  });

  test('with a load of resistance alone it is a voltage divider (Ohm’s law): 28 V, 2.4 Ω and 14.4 Ω leave 24 V', () => {
    expect(computed('coil-volts(28 V, transformer-ohms(24 V, 40 VA, 28 V), 24 V, 40 VA, 1)', 'V')).toBeCloseTo(24, 9);
    expect(computed('transformer-ohms(24 V, 40 VA, 28 V)', 'ohm')).toBeCloseTo(2.4, 9);
  });

  test('more cable never gives more volts, and none at all leaves those of the source', () => {
    const at = (feet: number): number => computed(`coil-volts(27 V, 2 * wire(20 AWG, ${feet} ft), 24 V, 30 VA, 0.6)`, 'V');
    expect(at(0)).toBeCloseTo(27, 9);
    for (let feet = 0; feet < 300; feet += 20) expect(at(feet + 20)).toBeLessThan(at(feet));
  });

  test('regulation of the book’s transformer: 9.990 V empty and 9.348 V loaded lose 0.642 V (Lessons in Electric Circuits, volume II)', () => {
    expect(computed('transformer-ohms(9.348 V, 9.348 V * 1 A, 9.990 V) * 1 A', 'V')).toBeCloseTo(0.642, 9);
  });
});

describe('outside what the sources hold for', () => {
  test.each([
    ['reactive-power(10 VA, 1.2)', 'out-of-range'],
    ['reactive-power(10 VA, 0 - 0.1)', 'out-of-range'],
    ['reactive-power(0 VA - 10 VA, 0.5)', 'no-answer'],
    ['apparent-power(0 W - 1 W, 3 VA)', 'no-answer'],
    ['transformer-ohms(24 V, 40 VA, 24 V)', 'out-of-range'],
    ['transformer-ohms(24 V, 40 VA, 60 V)', 'out-of-range'],
    ['transformer-ohms(24 V, 0 VA, 27 V)', 'no-answer'],
    ['coil-volts(27 V, 0 ohm - 1 ohm, 24 V, 10 VA, 0.5)', 'no-answer'],
    ['coil-volts(27 V, 1 ohm, 24 V, 0 VA, 0.5)', 'no-answer'],
    ['coil-volts(27 V, 1 ohm, 24 V, 10 VA, 3)', 'out-of-range'],
  ])('%s: %s', (text, code) => {
    expect(reasonOf(text)).toBe(code);
  });
});
