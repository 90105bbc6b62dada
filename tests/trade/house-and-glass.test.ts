import { describe, expect, test } from 'vitest';
import { computed, table } from './trade-checks.ts';

describe('humidification load', () => {
  // A humidifier maker's sizing table, seen in two places, both quoting an industry association's house types: 70 °F and 35 % inside,
  // 20 °F and 70 % outside, 8 ft ceilings, 1 lb/h from people and kitchen, furnace on 70 % of the time. Its own rounding and air
  // density leave it up to 5 % and half a gallon from the equations.
  const rows = table('humidifier-load.csv');

  test('there are three air change rates for six sizes of house', () => expect(rows).toHaveLength(18));

  test.each(rows)('$floor_sqft ft² at $ach air changes: $published_gal_per_day gallons a day', (row) => {
    const load = `humidification-load(${row.floor_sqft} ft2 * ${row.ceiling_ft} ft, ${row.ach} ACH, 70 °F, 35 %RH, 20 °F, 70 %RH, 0 ft)`;
    const gallons = computed(`water-flow((${load} - 1 lb/h) / 70 %)`, 'gpd');
    const published = Number(row.published_gal_per_day);
    expect(Math.abs(gallons - published)).toBeLessThan(0.05 * published + 0.5);
    expect(Math.abs(gallons - Number(row.computed_gal_per_day))).toBeLessThan(0.03);
  });

  test('a worked example of a manufacturer’s course: 115 200 ft³, 1 air change, 10 °F 45 % to 70 °F 50 %: 60.3 lb/h', () => {
    const load = computed('humidification-load(115200 ft3, 1 ACH, 70 °F, 50 %RH, 10 °F, 45 %RH, 0 ft)', 'lb/h');
    // It takes each stream of air on its own volume; on the indoor volume, as here, it is 61.3.
    expect(load).toBeCloseTo(61.3, 1);
    expect(Math.abs(load / 60.3 - 1)).toBeLessThan(0.02);
  });

  test('1 lb/h of water is 2.876 gallons a day (231 in³ to the gallon, NIST Handbook 44; 8.345 lb/gal)', () => {
    expect(computed('water-flow(1 lb/h)', 'gpd')).toBeCloseTo(2.876, 3);
  });
});

describe('highest indoor humidity before the glass sweats', () => {
  const rows = table('window-humidity.csv');
  const of = (word: string) => rows.filter((row) => row.source?.includes(word));
  const ours = (row: Readonly<Record<string, string>>, indoor: string): number =>
    computed(`highest-humidity(${indoor} °F, ${row.coldest_outdoor_F} °F, ${row.glazing})`, '%RH');

  test('sixteen values of the handbook’s list (from memory), 74 °F inside, 40 to −30 °F outside, within 1 %RH', () => {
    const list = of('handbook list');
    expect(list).toHaveLength(16);
    for (const row of list) expect(Math.abs(ours(row, '74') - Number(row.highest_RH_percent)), JSON.stringify(row)).toBeLessThan(1);
  });

  test.each(['building-research', 'public safety'])(
    'a list for double glass in steps of 5 %%RH (%s) allows nowhere more, and at most a step less',
    (word) => {
      const list = of(word);
      expect(list.length).toBeGreaterThan(4);
      for (const row of list) {
        const margin = ours(row, '70') - Number(row.highest_RH_percent);
        expect(margin, JSON.stringify(row)).toBeGreaterThan(0);
        expect(margin, JSON.stringify(row)).toBeLessThan(5.5);
      }
    },
  );

  test('building-research guidance: below 12 %RH behind single glass at 0 °F', () => {
    const humidity = computed('highest-humidity(70 °F, 0 °F, single)', '%RH');
    expect(humidity).toBeGreaterThan(9);
    expect(humidity).toBeLessThan(12);
  });

  test('by U-factor as by glazing, in either system of units', () => {
    const double = computed('highest-humidity(70 °F, 0 °F, double)', '%RH');
    expect(computed('highest-humidity-at(70 °F, 0 °F, 0.65 Btu/(h·ft²·°F))', '%RH')).toBeCloseTo(double, 5);
    // 1 Btu/(h·ft²·°F) is 5.678263 W/(m²·K), NIST SP 811.
    expect(computed('highest-humidity-at(70 °F, 0 °F, 3.690871 W/(m²·K))', '%RH')).toBeCloseTo(double, 4);
  });

  test('air at that humidity has its dew point at the glass: 70 − (0.30/1.46)·70 °F (the definition, by the other function)', () => {
    const humidity = computed('highest-humidity-at(70 °F, 0 °F, 0.30 Btu/(h·ft²·°F))', '%RH');
    expect(computed(`dew-point(70 °F, ${humidity} %RH)`, '°F')).toBeCloseTo(70 - (0.3 / 1.46) * 70, 3);
  });
});

describe('carbon monoxide, air-free', () => {
  // A trade journal on combustion testing prints 50 ppm at 7 % as 75 and 1200 at 6 % as 1680; exactly 75.2 and 1683.
  test.each([
    [50, 7, 75, 0.5],
    [1200, 6, 1680, 5],
    [100, 0, 100, 1e-9],
  ])('%d ppm at %d %% oxygen is %d ppm', (ppm, oxygen, printed, within) => {
    expect(Math.abs(computed(`co-air-free(${ppm} ppm, ${oxygen} %)`, 'ppm') - printed)).toBeLessThanOrEqual(within);
  });

  test('what air thins is got back: any share of air mixed in leaves the air-free value as it was', () => {
    for (const air of [0.1, 0.3, 0.6, 0.9]) {
      const thinned = computed(`co-air-free(${400 * (1 - air)} ppm, ${20.9 * air} %)`, 'ppm');
      expect(thinned).toBeCloseTo(400, 6);
    }
  });
});
