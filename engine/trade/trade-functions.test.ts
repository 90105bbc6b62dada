import { describe, expect, test } from 'vitest';
import { checkedBand, compute, dimensionOf, readFormula } from '../formula/index.ts';
import { DIMENSIONS } from '../quantity/index.ts';
import { TRADE_FUNCTIONS } from './trade-functions.ts';

const computed = (text: string) => {
  const formula = readFormula(text);
  if (!formula.ok) throw new Error(`cannot read ${text}`);
  const dimension = dimensionOf(formula.value, { names: {}, functions: TRADE_FUNCTIONS });
  return { dimension, result: compute(formula.value, { value: () => undefined, functions: TRADE_FUNCTIONS }) };
};

describe('functions of the trade in formulas', () => {
  test.each([
    ['ntc(10 kohm, type-2, 32 °F)', DIMENSIONS.resistance, 32650, 10],
    ['ntc(10 kohm, type-3, 0 °C)', DIMENSIONS.resistance, 29490, 15],
    ['ntc(20 kohm, type-2, 25 °C)', DIMENSIONS.resistance, 20000, 1e-6],
    ['ntc-temperature(10 kohm, type-2, 32650 ohm)', DIMENSIONS.temperature, 273.15, 0.01],
    ['wire(18 AWG, 100 ft)', DIMENSIONS.resistance, 0.6385, 0.0005],
    ['2 * wire(18 AWG, 100 ft)', DIMENSIONS.resistance, 1.277, 0.001],
    ['wire-at(14 AWG, 1000 ft, 75 °C)', DIMENSIONS.resistance, 3.07, 0.005],
    ['coil-impedance(24 V, 10 VA)', DIMENSIONS.resistance, 57.6, 1e-9],
    ['greater-volts(24 V, 18 V)', DIMENSIONS.voltage, 24, 0],
    ['lesser-volts(24 V, 18 V)', DIMENSIONS.voltage, 18, 0],
    ['parallel-ohms(30 ohm, 600 ohm)', DIMENSIONS.resistance, 28.5714286, 1e-6],
  ])('%s', (text, dimension, expected, within) => {
    const { dimension: got, result } = computed(text);
    expect(got).toEqual({ ok: true, value: dimension });
    if (!result.ok) throw new Error(JSON.stringify(result.problem));
    expect(Math.abs(result.value - expected)).toBeLessThanOrEqual(within);
  });

  test.each([
    ['ntc(10 kohm, type-2, 400 °F)', 'out-of-range'],
    ['ntc(10 kohm, type-2, -60 °F)', 'out-of-range'],
    ['ntc-temperature(10 kohm, beta-3435, 5 Mohm)', 'out-of-range'],
    ['ntc-temperature(10 kohm, beta-3435, 1 ohm)', 'out-of-range'],
    ['ntc(0 ohm, type-3, 20 °C)', 'no-answer'],
    ['wire(60 AWG, 10 ft)', 'out-of-range'],
    ['wire(18 AWG, -10 ft)', 'no-answer'],
    ['wire-at(18 AWG, 10 ft, 700 °F)', 'out-of-range'],
    ['coil-impedance(24 V, 0 VA)', 'no-answer'],
    ['parallel-ohms(0 ohm, 0 ohm)', 'no-answer'],
  ])('%s has no answer, and says why', (text, code) => {
    const { result } = computed(text);
    expect(result).toMatchObject({ ok: false, problem: { code: 'not-computable', why: { code } } });
  });

  test('a curve that does not exist is a wrong argument, with those that do', () => {
    expect(computed('ntc(10 kohm, type-9, 20 °C)').dimension).toMatchObject({
      ok: false,
      problem: { code: 'wrong-arguments', expected: 'ntc(ohms at 25 °C in ohm, curve: type-2 or type-3 or beta-3435, temperature in °F)' },
    });
  });

  test('a band edge may be one', () => {
    const scope = { names: { outdoor: DIMENSIONS.temperature }, functions: TRADE_FUNCTIONS };
    expect(checkedBand('within 5 % of ntc(10 kohm, type-2, outdoor)', DIMENSIONS.resistance, scope).ok).toBe(true);
    expect(checkedBand('within 5 % of ntc(10 kohm, type-2, outdoor)', DIMENSIONS.voltage, scope).ok).toBe(false);
  });
});
