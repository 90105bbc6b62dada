import { describe, expect, test } from 'vitest';
import { coilImpedance } from './coil.ts';
import { CURVES, THERMISTOR_CURVES, thermistorOhms, thermistorTemperature, ZERO_CELSIUS } from './thermistor.ts';
import { transformerModel } from './transformer.ts';
import { wireDiameter, wireOhms } from './wire.ts';

describe('outside their range models have no answer', () => {
  test.each(THERMISTOR_CURVES)('%s at the ends of its table and one degree past them', (name) => {
    const { from, to } = CURVES[name];
    for (const [celsius, ok] of [
      [from, true],
      [to, true],
      [from - 1, false],
      [to + 1, false],
      [Number.NaN, false],
    ] as const) {
      expect(thermistorOhms(10_000, name, celsius + ZERO_CELSIUS).ok, `${celsius}`).toBe(ok);
    }
    expect(thermistorTemperature(10_000, name, Number.NaN).ok).toBe(false);
  });

  test('wire', () => {
    expect(wireDiameter(-1)).toMatchObject({ ok: false, problem: { code: 'out-of-range', from: 0, to: 40 } });
    expect(wireOhms(18, Number.NaN).ok).toBe(false);
    expect(wireOhms(18, 0)).toEqual({ ok: true, value: 0 });
  });

  test('a coil whose winding has more ohms than its rating has impedance', () => {
    expect(coilImpedance(24, 10, 58)).toMatchObject({ ok: false, problem: { code: 'out-of-range', value: 58, to: 57.6 } });
    expect(coilImpedance(24, 10, 57.6)).toMatchObject({ ok: true, value: { reactance: 0 } });
    expect(coilImpedance(0, 10, 1).ok).toBe(false);
  });

  test('a transformer whose no-load volts are not above its rated volts, or are twice them', () => {
    expect(transformerModel(120, 24, 40, 24).ok).toBe(false);
    expect(transformerModel(120, 24, 40, 50).ok).toBe(false);
    expect(transformerModel(120, 24, 0, 27).ok).toBe(false);
    expect(transformerModel(120, 24, 40, 27)).toMatchObject({ ok: true, value: { magnetising: 3600 } });
  });
});
