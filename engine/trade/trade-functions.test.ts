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
    ['ntc-error(10 kohm, type-3, type-2, 0 °F)', DIMENSIONS['temperature difference'], 6.2 / 1.8, 0.1],
    ['ntc-error(10 kohm, type-2, type-2, 0 °F)', DIMENSIONS['temperature difference'], 0, 1e-6],
    ['cable-drop(18 AWG, 100 ft, 0.25 A, 68 °F)', DIMENSIONS.voltage, 0.319, 0.0005],
    ['transformer-loading(10 VA + 15 VA, 40 VA)', DIMENSIONS.number, 0.625, 1e-12],
    ['saturation-pressure(212 °F)', DIMENSIONS.pressure, 101_418, 10],
    ['humidity-ratio(68 °F, 100 %, 0 ft)', DIMENSIONS.number, 0.0147, 0.0001],
    ['dew-point(70 °F, 100 %RH)', DIMENSIONS.temperature, 294.261, 0.001],
    ['humidification-load(2000 ft2 * 8 ft, 0.5 ACH, 70 °F, 35 %RH, 20 °F, 70 %RH, 0 ft)', DIMENSIONS['mass flow'], 2.94e-4, 0.03e-4],
    ['humidification-load(16000 ft3, 0.5 ACH, 70 °F, 10 %RH, 68 °F, 90 %RH, 0 ft)', DIMENSIONS['mass flow'], 0, 0],
    ['load-left(3.5 lb/h, 1 lb/h)', DIMENSIONS['mass flow'], (2.5 * 0.45359237) / 3600, 1e-9],
    ['load-left(0.4 lb/h, 1 lb/h)', DIMENSIONS['mass flow'], 0, 0],
    ['water-flow(1 lb/h)', DIMENSIONS['volume flow'], 2.876 * 4.381264e-8, 0.001e-8],
    ['highest-humidity(74 °F, 0 °F, single)', DIMENSIONS.number, 0.1, 0.01],
    ['highest-humidity-at(74 °F, 0 °F, 0.65 Btu/(h·ft²·°F))', DIMENSIONS.number, 0.3, 0.01],
    ['highest-humidity-at(74 °F, 90 °F, 0.65 Btu/h/ft2/F)', DIMENSIONS.number, 1, 0],
    ['co-air-free(50 ppm, 7 %)', DIMENSIONS.number, 75.2e-6, 0.05e-6],
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
    ['ntc-error(10 kohm, type-2, type-3, -60 °F)', 'out-of-range'],
    ['cable-drop(18 AWG, 100 ft, -1 A, 68 °F)', 'no-answer'],
    ['cable-drop(60 AWG, 100 ft, 1 A, 68 °F)', 'out-of-range'],
    ['transformer-loading(10 VA, 0 VA)', 'no-answer'],
    ['transformer-loading(-10 VA, 40 VA)', 'no-answer'],
    ['saturation-pressure(400 °F)', 'out-of-range'],
    ['saturation-pressure(-150 °F)', 'out-of-range'],
    ['humidity-ratio(68 °F, 101 %RH, 0 ft)', 'out-of-range'],
    ['humidity-ratio(68 °F, 40, 0 ft)', 'out-of-range'],
    ['humidity-ratio(68 °F, -1 %RH, 0 ft)', 'out-of-range'],
    ['humidity-ratio(68 °F, 40 %RH, 40000 ft)', 'out-of-range'],
    ['humidity-ratio(250 °F, 90 %RH, 0 ft)', 'no-answer'],
    ['dew-point(68 °F, 0 %RH)', 'no-answer'],
    ['dew-point(68 °F, 120 %RH)', 'out-of-range'],
    ['humidification-load(0 ft3, 0.5 ACH, 70 °F, 35 %RH, 20 °F, 70 %RH, 0 ft)', 'no-answer'],
    ['humidification-load(8000 ft3, 30 ACH, 70 °F, 35 %RH, 20 °F, 70 %RH, 0 ft)', 'out-of-range'],
    ['humidification-load(8000 ft3, 1 ACH, 20 °F, 35 %RH, 20 °F, 70 %RH, 0 ft)', 'out-of-range'],
    ['humidification-load(8000 ft3, 1 ACH, 70 °F, 35 %RH, -80 °F, 70 %RH, 0 ft)', 'out-of-range'],
    ['humidification-load(8000 ft3, 1 ACH, 70 °F, 35 %RH, 20 °F, 700 %RH, 0 ft)', 'out-of-range'],
    ['humidification-load(8000 ft3, 1 ACH, 70 °F, 35 %RH, 20 °F, 70 %RH, 40000 ft)', 'out-of-range'],
    ['load-left(-1 lb/h, 0 lb/h)', 'no-answer'],
    ['load-left(1 lb/h, -1 lb/h)', 'no-answer'],
    ['highest-humidity(30 °F, 0 °F, single)', 'out-of-range'],
    ['highest-humidity(70 °F, -80 °F, double)', 'out-of-range'],
    ['highest-humidity-at(70 °F, 0 °F, 1.4 Btu/(h·ft²·°F))', 'out-of-range'],
    ['highest-humidity-at(70 °F, 0 °F, 0 W/(m²·K))', 'out-of-range'],
    ['co-air-free(50 ppm, 20.8 %)', 'out-of-range'],
    ['co-air-free(50, 7 %)', 'out-of-range'],
    ['co-air-free(-1 ppm, 7 %)', 'out-of-range'],
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
