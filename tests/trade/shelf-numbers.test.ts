import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { TreeFolder } from '../../engine/cli/tree-folder.ts';
import { isChoice, type Step, type Tree, waysOf } from '../../engine/tree/index.ts';
import { computed, table } from './trade-checks.ts';

const folder = new TreeFolder(fileURLToPath(new URL('../../trees', import.meta.url)));

function treeOf(name: string): Tree {
  const tree = folder.sources(name).trees[name];
  if (!tree) throw new Error(name);
  return tree;
}

function stepOf(tree: string, id: string): Step {
  const step = treeOf(tree).steps.find((one) => one.id === id);
  if (!step) throw new Error(`${tree} has no ${id}`);
  return step;
}

/** What a step of the shelf computes, by what it says that it shows. */
function formulaOf(tree: string, id: string, shows: string): string {
  const found = stepOf(tree, id).computed?.find((one) => one.shows === shows);
  if (!found) throw new Error(`${tree} ${id} does not show ${shows}`);
  return found.by;
}

/** A formula of a tree in one house: the facts told, the usual ones for the rest. */
function inHouse(tree: string, formula: string, told: Readonly<Record<string, string>>): string {
  const facts = treeOf(tree).facts;
  const names = Object.keys(facts).sort((a, b) => b.length - a.length);
  return names.reduce((text, name) => {
    const fact = facts[name];
    if (!fact || isChoice(fact)) return text;
    return text.replace(new RegExp(`(?<![\\w-])${name}(?![\\w-])`, 'g'), `(${told[name] ?? fact.usual})`);
  }, formula);
}

describe('dry house: the water that the house needs', () => {
  const TREE = 'dry-house-though-water-runs';
  const STEP = 'what-the-humidifier-gives';
  const need = formulaOf(TREE, STEP, 'Water that the humidifier must give');
  const rows = table('humidifier-load.csv');

  test('the table has eighteen houses', () => expect(rows).toHaveLength(18));

  // The sizing table that tests/trade/house-and-glass.test.ts names: 70 °F and 35 % inside, 20 °F and 70 % outside, 8 ft ceilings, 1 lb/h from
  // people and kitchen, furnace on 70 % of the time. Its own air density and rounding leave it up to 5 % and half a gallon from the equations.
  test.each(rows)('$floor_sqft ft² at $ach air changes: $published_gal_per_day gallons a day', (row) => {
    const told = { floor: `${row.floor_sqft} ft2`, 'air-changes': `${row.ach} ACH`, outdoor: '20 °F', target: '35 %RH' };
    const published = Number(row.published_gal_per_day);
    expect(Math.abs(computed(inHouse(TREE, need, told), 'gpd') - published)).toBeLessThan(0.05 * published + 0.5);
  });

  test('a house that people and kitchen keep damp enough needs nothing, and not less than nothing', () => {
    expect(computed(inHouse(TREE, need, { floor: '600 ft2', 'air-changes': '0.2 ACH', outdoor: '50 °F', target: '30 %RH' }), 'gpd')).toBe(0);
  });

  test('the band is that number', () => {
    expect(waysOf(stepOf(TREE, STEP)).map(({ on }) => on)).toEqual([`below ${need}`, `above ${need}`]);
  });

  // The load equation both ways: a plate that gives just what is needed holds just the target (the definition, by the other function).
  test.each([
    { floor: '2000 ft2', 'air-changes': '1 ACH', outdoor: '20 °F', target: '35 %RH' },
    { floor: '3000 ft2', 'air-changes': '1.5 ACH', outdoor: '-10 °F', target: '25 %RH' },
  ])('a humidifier that gives just that holds just the target: $target', (told) => {
    const gives = computed(inHouse(TREE, need, told), 'gpd');
    const held = formulaOf(TREE, 'house-leaks', 'Humidity that the house should hold');
    expect(computed(inHouse(TREE, held, { ...told, 'plate-gives': `${gives} gpd` }), '%RH')).toBeCloseTo(Number.parseFloat(told.target), 3);
    expect(formulaOf(TREE, 'humidifier-too-small', 'Humidity that the house holds with it')).toBe(held);
  });
});

describe('windows: the humidity that the glass bears', () => {
  const TREE = 'windows-sweat-in-the-cold';
  const bears = formulaOf(TREE, 'humidity-of-the-house', 'Most humidity that this glass bears now');
  const list = table('window-humidity.csv').filter((row) => row.source?.includes('handbook list'));
  // U-factors of the handbook's two kinds of glass (from memory): 1.13 single, 0.65 double.
  const GLASS: Readonly<Record<string, string>> = { single: '1.13 Btu/(h·ft²·°F)', double: '0.65 Btu/(h·ft²·°F)' };

  test.each(list)('$glazing at $coldest_outdoor_F °F outside: $highest_RH_percent %%RH of the handbook’s list (from memory), within 1', (row) => {
    const told = { indoor: '74 °F', outdoor: `${row.coldest_outdoor_F} °F`, glass: GLASS[row.glazing ?? ''] ?? '' };
    expect(Math.abs(computed(inHouse(TREE, bears, told), '%RH') - Number(row.highest_RH_percent))).toBeLessThan(1);
  });

  test('the list is there', () => expect(list).toHaveLength(16));

  test('the band is that number', () => {
    expect(waysOf(stepOf(TREE, 'humidity-of-the-house')).map(({ on }) => on)).toEqual([`below ${bears}`, `above ${bears}`]);
  });

  // Inner face: Ti − (U/h)(Ti − To) with h 1.46 (from memory): 70 − 0.65 / 1.46 · 60 = 43.3 °F.
  test('the inner face is as cold as its U-factor says', () => {
    const face = formulaOf(TREE, 'humidity-of-the-house', 'Its inner face is then at');
    expect(computed(inHouse(TREE, face, {}), '°F')).toBeCloseTo(70 - (0.65 / 1.46) * 60, 2);
  });
});

describe('outdoor sensor: ohms, and what another curve makes of them', () => {
  const TREE = 'outdoor-sensor-lies';
  const inCold = (id: string, shows: string, told: Readonly<Record<string, string>>, unit: string) =>
    computed(inHouse(TREE, formulaOf(TREE, id, shows), told), unit);

  // Published tables: 103JL1A (type 2) and the 10k “G” of a data sheet (type 3), as tests/outside/thermistor-tables.csv has them.
  test.each([
    ['0 °C', 32_650, 29_490],
    ['-10 °C', 55_329, 47_540],
    ['-20 °C', 97_081, 78_910],
  ])('at %s: %d Ω of type 2, %d Ω of type 3, within 0.2 %%', (outdoor, type2, type3) => {
    expect(Math.abs(inCold('ohms-of-sensor-and-cable', 'A type 2 sensor has, in this air', { outdoor }, 'ohm') / type2 - 1)).toBeLessThan(0.002);
    expect(Math.abs(inCold('ohms-of-sensor-and-cable', 'A type 3 sensor has', { outdoor }, 'ohm') / type3 - 1)).toBeLessThan(0.002);
  });

  // Worked out from the same published tables by splines: 0 °F shows as 6.2, 20 °F as 24.6, 32 °F as 35.6.
  test.each([
    ['0 °F', 6.2, 6.2],
    ['20 °F', 24.6, 4.6],
    ['32 °F', 35.6, 3.6],
  ])('a type 3 sensor on a control for type 2 at %s shows %d °F, %d F° too warm', (outdoor, shown, off) => {
    expect(Math.abs(inCold('wrong-type-of-sensor', 'With a type 3 sensor it shows', { outdoor }, '°F') - shown)).toBeLessThan(0.1);
    expect(Math.abs(inCold('wrong-type-of-sensor', 'Too warm by', { outdoor }, 'F°') - off)).toBeLessThan(0.1);
  });

  test('ohms that were read are the temperature that the control shows', () => {
    for (const id of ['wrong-type-of-sensor', 'controls-input-wrong', 'splice-corroded', 'sensor-drifted']) {
      const by = stepOf(TREE, id).computed?.find(({ by }) => by.includes('pair-ohms'))?.by ?? '';
      expect(computed(inHouse(TREE, by, { 'pair-ohms': '32.65 kohm' }), '°F')).toBeCloseTo(32, 0);
    }
  });
});

describe('contactor: what the cable loses', () => {
  const TREE = 'contactor-will-not-pull-in';
  const loses = formulaOf(TREE, 'volts-from-y-outside-to-ground', 'A sound cable loses at most');

  // 6.385 Ω per 1000 ft of 18 AWG, 16.14 of 22 AWG: NBS wire table; out and back, times the inrush amps.
  test.each([
    [{}, 2 * 0.06 * 6.385 * (30 / 24)],
    [{ run: '100 ft', 'coil-inrush': '6 VA' }, 0.319],
    [{ run: '150 ft', cable: '22 AWG' }, 2 * 0.15 * 16.14 * (30 / 24)],
  ])('%j: %d V', (told, volts) => {
    expect(Math.abs(computed(inHouse(TREE, loses, told), 'V') / volts - 1)).toBeLessThan(0.002);
  });

  // The same table, 24 AWG 25.67 Ω per 1000 ft: a short at the far end lies below the band's edge, a coil of 8 Ω there above it.
  test.each([
    [{}, 2 * 0.06 * 6.385],
    [{ run: '200 ft', cable: '22 AWG' }, 2 * 0.2 * 16.14],
    [{ run: '200 ft', cable: '24 AWG' }, 2 * 0.2 * 25.67],
  ])('%j: %d Ω out and back, and 5 more are the edge between short and coil', (told, ohms) => {
    for (const [tree, id] of [
      [TREE, 'ohms-from-y-to-c'],
      ['control-fuse-blows', 'ohms-of-the-way-out'],
    ] as const) {
      const edge = waysOf(stepOf(tree, id))[0]?.on.replace(/^below /, '') ?? '';
      expect(Math.abs(computed(inHouse(tree, formulaOf(tree, id, 'Ohms of the cable, out and back'), told), 'ohm') / ohms - 1)).toBeLessThan(0.002);
      expect(computed(inHouse(tree, edge, told), 'ohm')).toBeCloseTo(ohms + 5, 1);
    }
  });
});

describe('control fuse: everything on the transformer', () => {
  const TREE = 'control-fuse-blows';
  const STEP = 'load-on-the-transformer';

  // The bench's own labels: board 4, accessory 8, thermostat (24² / 500) 1, contactor 9, gas valve 10 VA; with the dampers 60 more.
  test('32 of 40 VA are 80 %, 92 are 230 %: sums of the labels (arithmetic)', () => {
    const load = formulaOf(TREE, STEP, 'Load on the transformer');
    expect(computed(inHouse(TREE, load, { 'all-va': '32 VA' }), '%')).toBeCloseTo(80, 9);
    expect(computed(inHouse(TREE, load, { 'all-va': '92 VA' }), '%')).toBeCloseTo(230, 9);
    expect(formulaOf(TREE, 'overloaded', 'Load on the transformer')).toBe(load);
  });

  test('72 VA are all of a 3 A fuse, 31 VA two thirds of one of 2 A (arithmetic)', () => {
    const load = formulaOf(TREE, STEP, 'Load on the fuse');
    expect(computed(inHouse(TREE, load, { 'all-va': '72 VA' }), '%')).toBeCloseTo(100, 9);
    expect(computed(inHouse(TREE, load, { 'all-va': '31 VA', 'fuse-amps': '2 A' }), '%')).toBeCloseTo(64.58, 2);
    expect(formulaOf(TREE, 'overloaded', 'Load on the fuse')).toBe(load);
  });

  // 40 VA at 24 V are 1.67 A: a catalog’s own arithmetic.
  test('40 VA are 1.67 A', () => {
    expect(computed(inHouse(TREE, formulaOf(TREE, STEP, 'Amps through the fuse'), { 'all-va': '40 VA' }), 'A')).toBeCloseTo(1.67, 2);
  });
});

describe('no heat: carbon monoxide air-free', () => {
  // The examples that tests/trade/house-and-glass.test.ts names: 50 ppm at 7 % are 75, 1200 at 6 % are 1680 (exactly 75.2 and 1683).
  test.each([
    ['50 ppm', '7 %', 75.2],
    ['1200 ppm', '6 %', 1683],
  ])('%s at %s oxygen: %d ppm', (co, o2, printed) => {
    const TREE = 'ignition-call-to-proved-flame';
    const free = inHouse(TREE, formulaOf(TREE, 'heat-at-the-burner', 'Carbon monoxide, air-free'), { 'flue-co': co, 'flue-o2': o2 });
    expect(Math.abs(computed(free, 'ppm') / printed - 1)).toBeLessThan(0.001);
  });
});
