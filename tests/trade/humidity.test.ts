import { createRequire } from 'node:module';
import { beforeAll, describe, expect, test } from 'vitest';
import { computed, reasonOf } from './trade-checks.ts';

// psychrolib 1.1.1: the equations of the ASHRAE Handbook, Fundamentals (2017), chapter 1, by other hands. Only what is used here.
type Psychrolib = {
  readonly IP: number;
  readonly SI: number;
  SetUnitSystem(system: number): void;
  GetStandardAtmPressure(altitude: number): number;
  GetHumRatioFromRelHum(temperature: number, humidity: number, pressure: number): number;
  GetMoistAirVolume(temperature: number, ratio: number, pressure: number): number;
  GetRelHumFromHumRatio(temperature: number, ratio: number, pressure: number): number;
  GetRelHumFromTWetBulb(temperature: number, wetBulb: number, pressure: number): number;
  GetRelHumFromTDewPoint(temperature: number, dewPoint: number): number;
};
const psychrolib: Psychrolib = createRequire(import.meta.url)('psychrolib');
beforeAll(() => psychrolib.SetUnitSystem(psychrolib.IP));

describe('relative humidity against psychrolib', () => {
  test('from the dew point, on both sides of freezing', () => {
    for (const air of [-20, 10, 33, 70, 100]) {
      for (const below of [0, 5, 20, 40]) {
        const theirs = psychrolib.GetRelHumFromTDewPoint(air, air - below) * 100;
        expect(computed(`humidity-from-dew-point(${air} °F, ${air - below} °F)`, '%RH'), `${air}, ${air - below}`).toBeCloseTo(theirs, 2);
      }
    }
  });

  test('from the wet bulb, wick wet and frozen, at sea level and a mile up', () => {
    let tried = 0;
    for (const metric of [true, false]) {
      psychrolib.SetUnitSystem(metric ? psychrolib.SI : psychrolib.IP);
      for (const height of metric ? [0, 1600] : [0, 5280]) {
        const pressure = psychrolib.GetStandardAtmPressure(height);
        for (const dry of metric ? [-9, -1, 7, 21, 35, 46] : [15, 30, 45, 70, 95, 115]) {
          for (const below of metric ? [0, 1, 3, 7, 14] : [0, 2, 6, 12, 25]) {
            const theirs = psychrolib.GetRelHumFromTWetBulb(dry, dry - below, pressure) * 100;
            // Where the wick is colder than the driest air can make it, their answer stops at nothing and ours is refused.
            if (theirs < 0.1) continue;
            tried += 1;
            const [degree, length] = metric ? ['°C', 'm'] : ['°F', 'ft'];
            const ours = computed(`humidity-from-wet-bulb(${dry} ${degree}, ${dry - below} ${degree}, ${height} ${length})`, '%RH');
            // The handbook rounds its inch-pound equations apart from its metric ones, which are ours.
            expect(Math.abs(ours - theirs), `${dry}, ${dry - below} ${degree}, ${height} ${length}`).toBeLessThan(metric ? 0.01 : 0.3);
          }
        }
      }
    }
    psychrolib.SetUnitSystem(psychrolib.IP);
    expect(tried).toBeGreaterThan(80);
  });

  test('at another temperature: the humidity ratio stays', () => {
    const pressure = psychrolib.GetStandardAtmPressure(0);
    for (const [from, percent, to] of [
      [20, 70, 70],
      [-10, 90, 68],
      [70, 30, 50],
      [95, 20, 75],
    ] as const) {
      const ratio = psychrolib.GetHumRatioFromRelHum(from, percent / 100, pressure);
      const theirs = psychrolib.GetRelHumFromHumRatio(to, ratio, pressure) * 100;
      expect(computed(`humidity-at(${from} °F, ${percent} %RH, ${to} °F)`, '%RH')).toBeCloseTo(theirs, 2);
    }
  });

  test('that a house holds: a balance of water, by their humidity ratios and volumes', () => {
    for (const [volume, changes, outdoor, rhOut, pounds, feet] of [
      [16_000, 0.5, 20, 70, 2.33, 0],
      [30_000, 0.35, -10, 80, 4, 1000],
      [12_000, 1, 40, 60, 0, 5280],
    ] as const) {
      const pressure = psychrolib.GetStandardAtmPressure(feet);
      const percent = computed(`humidity-held(${volume} ft3, ${changes} ACH, 70 °F, ${outdoor} °F, ${rhOut} %RH, ${pounds} lb/h, ${feet} ft)`, '%RH');
      const inside = psychrolib.GetHumRatioFromRelHum(70, percent / 100, pressure);
      const outside = psychrolib.GetHumRatioFromRelHum(outdoor, rhOut / 100, pressure);
      const lost = ((volume * changes) / psychrolib.GetMoistAirVolume(70, inside, pressure)) * (inside - outside);
      expect(lost).toBeCloseTo(pounds, 3);
    }
  });
});

describe('worked examples', () => {
  test('Fundamentals, chapter 1, example 1: 100 °F and 65 °F wet bulb at 14.696 psi: 13 %RH', () => {
    expect(Math.round(computed('humidity-from-wet-bulb(100 °F, 65 °F, 0 ft)', '%RH'))).toBe(13);
  });

  test('and its dew point of 40 °F goes with 13 %RH', () => {
    // 40 °F is printed without decimals.
    expect(computed('humidity-from-dew-point(100 °F, 39.5 °F)', '%RH')).toBeLessThan(13.5);
    expect(computed('humidity-from-dew-point(100 °F, 40.5 °F)', '%RH')).toBeGreaterThan(12.5);
  });

  test('a humidifier that gives the load holds the humidity that the load was worked out for (the two are inverse)', () => {
    for (const percent of [15, 35, 55]) {
      const load = `humidification-load(16000 ft3, 0.5 ACH, 70 °F, ${percent} %RH, 10 °F, 60 %RH, 900 ft)`;
      expect(computed(`humidity-held(16000 ft3, 0.5 ACH, 70 °F, 10 °F, 60 %RH, ${load}, 900 ft)`, '%RH')).toBeCloseTo(percent, 6);
    }
  });
});

describe('outside what the sources hold for', () => {
  test.each([
    ['humidity-at(70 °F, 40 %RH, 30 °F)', 'no-answer'],
    ['humidity-at(70 °F, 140 %RH, 80 °F)', 'out-of-range'],
    ['humidity-at(70 °F, 40 %RH, 500 °F)', 'out-of-range'],
    ['humidity-from-dew-point(70 °F, 71 °F)', 'no-answer'],
    ['humidity-from-dew-point(70 °F, -200 °F)', 'out-of-range'],
    ['humidity-from-wet-bulb(70 °F, 71 °F, 0 ft)', 'no-answer'],
    ['humidity-from-wet-bulb(100 °F, 40 °F, 0 ft)', 'no-answer'],
    ['humidity-from-wet-bulb(70 °F, 60 °F, 90000 ft)', 'out-of-range'],
    ['humidity-held(16000 ft3, 0 ACH, 70 °F, 20 °F, 70 %RH, 2 lb/h, 0 ft)', 'no-answer'],
    ['humidity-held(16000 ft3, 0.5 ACH, 70 °F, 20 °F, 70 %RH, -2 lb/h, 0 ft)', 'no-answer'],
    ['humidity-held(16000 ft3, 50 ACH, 70 °F, 20 °F, 70 %RH, 2 lb/h, 0 ft)', 'out-of-range'],
    ['humidity-held(16000 ft3, 0.5 ACH, 170 °F, 20 °F, 70 %RH, 2 lb/h, 0 ft)', 'out-of-range'],
    ['humidity-held(16000 ft3, 0.5 ACH, 70 °F, 20 °F, 170 %RH, 2 lb/h, 0 ft)', 'out-of-range'],
  ])('%s: %s', (text, code) => {
    expect(reasonOf(text)).toBe(code);
  });

  test('more water than the air holds is 100 %RH, however much more', () => {
    expect(computed('humidity-held(4000 ft3, 0.2 ACH, 70 °F, 20 °F, 70 %RH, 3 lb/h, 0 ft)', '%RH')).toBe(100);
    expect(computed('humidity-held(4000 ft3, 0.2 ACH, 70 °F, 20 °F, 70 %RH, 300 lb/h, 0 ft)', '%RH')).toBe(100);
  });
});
