import { createRequire } from 'node:module';
import { beforeEach, describe, expect, test } from 'vitest';
import { computed, table } from './trade-checks.ts';

// psychrolib 1.1.1: the equations of the ASHRAE Handbook, Fundamentals (2017), chapter 1, by other hands. Only what is used here.
type Psychrolib = {
  readonly IP: number;
  readonly SI: number;
  SetUnitSystem(system: number): void;
  GetSatVapPres(temperature: number): number;
  GetHumRatioFromRelHum(temperature: number, humidity: number, pressure: number): number;
  GetTDewPointFromRelHum(temperature: number, humidity: number): number;
  GetMoistAirVolume(temperature: number, ratio: number, pressure: number): number;
  GetStandardAtmPressure(altitude: number): number;
};
const psychrolib: Psychrolib = createRequire(import.meta.url)('psychrolib');

const off = (ours: number, theirs: number): number => Math.abs(ours / theirs - 1);

describe('saturation pressure and humidity ratio against printed tables (Fundamentals, chapter 1, tables 2 and 3)', () => {
  const rows = table('saturation-pressure.csv').filter((row) => row.status_published === 'seen');

  test('there are printed values from −76 to 300 °F', () =>
    expect(rows.map((row) => Number(row.temp_F))).toEqual([-76, -58, -4, 23, 41, 77, 122, 212, 300]));

  test.each(rows.filter((row) => row.pws_psi_published_T3 !== ''))('$temp_F °F: $pws_psi_published_T3 psi', (row) => {
    const printed = row.pws_psi_published_T3 ?? '';
    // The equations stay within 210 ppm of the table; at −76 °F the table has three digits.
    const rounding = (0.5 * 10 ** -(printed.split('.')[1]?.length ?? 0)) / Number(printed);
    expect(off(computed(`saturation-pressure(${row.temp_F} °F)`, 'psi'), Number(printed))).toBeLessThan(210e-6 + rounding);
  });

  test.each(rows.filter((row) => row.Ws_published_T2 !== ''))('$temp_F °F saturated at sea level: $Ws_published_T2 lb/lb', (row) => {
    const ours = computed(`humidity-ratio(${row.temp_F} °F, 100 %RH, 0 ft)`, 'lb/lb');
    // Ideal gas: below the table by the enhancement factor, 0.4 to 0.65 %.
    expect(ours / Number(row.Ws_published_T2)).toBeGreaterThan(0.993);
    expect(ours / Number(row.Ws_published_T2)).toBeLessThan(0.997);
  });
});

describe('against psychrolib', () => {
  beforeEach(() => psychrolib.SetUnitSystem(psychrolib.IP));

  test('saturation pressure from −148 to 392 °F, in its inch-pound equations', () => {
    for (let fahrenheit = -148; fahrenheit <= 392; fahrenheit += 4) {
      const ours = computed(`saturation-pressure(${fahrenheit} °F)`, 'psi');
      // The two systems' coefficients are rounded apart from each other.
      expect(off(ours, psychrolib.GetSatVapPres(fahrenheit)), `${fahrenheit} °F`).toBeLessThan(2e-5);
    }
  });

  test('and in its metric ones, to the last digits, on both sides of freezing', () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    for (const celsius of [-100, -40, -10, -1, -0.01, 0, 0.009, 0.02, 1, 20, 60, 100, 200]) {
      expect(off(computed(`saturation-pressure(${celsius} °C)`, 'Pa'), psychrolib.GetSatVapPres(celsius)), `${celsius} °C`).toBeLessThan(1e-10);
    }
  });

  test('standard atmosphere, humidity ratio and dew point, over the weather and the houses there are', () => {
    for (const feet of [0, 1000, 5280, 8000]) {
      const pressure = psychrolib.GetStandardAtmPressure(feet);
      for (let fahrenheit = -40; fahrenheit <= 110; fahrenheit += 10) {
        for (const percent of [1, 15, 35, 50, 70, 100]) {
          const at = `${fahrenheit} °F, ${percent} %RH`;
          const ratio = psychrolib.GetHumRatioFromRelHum(fahrenheit, percent / 100, pressure);
          // Never below 1e-7 there.
          if (ratio > 1e-6) expect(off(computed(`humidity-ratio(${at}, ${feet} ft)`, 'lb/lb'), ratio), `${at}, ${feet} ft`).toBeLessThan(5e-5);
          const dew = psychrolib.GetTDewPointFromRelHum(fahrenheit, percent / 100);
          expect(Math.abs(computed(`dew-point(${at})`, '°F') - dew), at).toBeLessThan(0.004);
        }
      }
    }
  });

  test('the load, from its humidity ratios and volumes', () => {
    for (const [indoor, rhIn, outdoor, rhOut, feet] of [
      [70, 35, 20, 70, 0],
      [68, 30, -10, 80, 1000],
      [74, 45, 40, 60, 5280],
    ] as const) {
      const pressure = psychrolib.GetStandardAtmPressure(feet);
      const inside = psychrolib.GetHumRatioFromRelHum(indoor, rhIn / 100, pressure);
      const outside = psychrolib.GetHumRatioFromRelHum(outdoor, rhOut / 100, pressure);
      const pounds = ((16_000 * 0.5) / psychrolib.GetMoistAirVolume(indoor, inside, pressure)) * (inside - outside);
      const ours = computed(`humidification-load(16000 ft3, 0.5 ACH, ${indoor} °F, ${rhIn} %RH, ${outdoor} °F, ${rhOut} %RH, ${feet} ft)`, 'lb/h');
      expect(off(ours, pounds)).toBeLessThan(1e-4);
    }
  });
});

describe('worked examples', () => {
  test('Fundamentals, chapter 1, example 1: 100 °F, 65 °F wet bulb: W 0.00523, RH 13 %, dew point 40 °F', () => {
    const ratioAt = (percent: number): number => computed(`humidity-ratio(100 °F, ${percent} %RH, 0 ft)`, 'lb/lb');
    const dewAt = (percent: number): number => computed(`dew-point(100 °F, ${percent} %RH)`, '°F');
    // RH and dew point are printed without decimals, so each end of the rounding stands on its side.
    expect(ratioAt(12.5)).toBeLessThan(0.00523);
    expect(ratioAt(13.5)).toBeGreaterThan(0.00523);
    expect(dewAt(12.5)).toBeLessThan(40.5);
    expect(dewAt(13.5)).toBeGreaterThan(39.5);
  });

  test('standard atmosphere: 14.175 psi at 1000 ft, 10.108 at 10 000 ft (Fundamentals, chapter 1, table 1), by the humidity ratio it gives', () => {
    for (const [feet, psi] of [
      [0, 14.696],
      [1000, 14.175],
      [3000, 13.173],
      [10_000, 10.108],
    ] as const) {
      // Equation 3 misses the handbook's own table by up to 170 ppm.
      const vapor = computed('saturation-pressure(70 °F)', 'psi') * 0.4;
      expect(off(computed(`humidity-ratio(70 °F, 40 %RH, ${feet} ft)`, 'lb/lb'), (0.621945 * vapor) / (psi - vapor))).toBeLessThan(2e-4);
    }
  });

  test('a grain is a seven-thousandth of a pound', () => {
    expect(computed('humidity-ratio(70 °F, 40 %RH, 0 ft)', 'gr/lb')).toBeCloseTo(7000 * computed('humidity-ratio(70 °F, 40 %RH, 0 ft)', 'lb/lb'), 9);
  });
});
