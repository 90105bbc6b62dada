import { expect, test } from 'vitest';
import { groupExpected, namesIn, notReached, onAnEdge } from '../edit/form/group-expected.ts';
import { axisOf } from '../edit/form/reading-scale.ts';
import { type ExpectedValues, expectedValues } from './expected-values.ts';
import { shippedEdition } from './testing/shipped-sources.ts';

const NAME = 'no-water-at-the-pad';

function valuesOf(edition: ReturnType<typeof shippedEdition>): { readonly usual: ExpectedValues; readonly all: ExpectedValues } {
  const [usual, all] = [...expectedValues(edition)].filter((one) => one !== undefined);
  if (!usual || !all) throw new Error('two results');
  return { usual, all };
}

const { usual, all } = valuesOf(shippedEdition(NAME));
const at = (values: ExpectedValues, step: string) => values.steps[`${NAME}/${step}`]?.readings ?? [];
const of = (values: ExpectedValues, step: string, fault: string | undefined, bench = 'own-transformer') =>
  at(values, step).find((reading) => reading.fault === fault && reading.bench === bench);

test('each reading is taken in the circuit as the walk of that fault has it', () => {
  // The jumper is on and the call too: an open coil leaves the whole secondary at the valve, an open wire leaves nothing (the divider rule).
  expect(of(usual, 'volts-at-the-valve', 'coil-open')?.value).toBeGreaterThan(24);
  expect(of(usual, 'volts-at-the-valve', 'run-open')?.value).toBeLessThan(0.1);
  // Power off, lead lifted: the coil alone, 30 ohm on this bench.
  expect(of(usual, 'coil-resistance', 'coil-open')?.value).toBe('open');
  expect(of(usual, 'coil-resistance', 'valve-stuck')?.value).toBeCloseTo(30, 0);
});

test('faults whose walk ends before are not reached, and a sound circuit is read where another walk has it', () => {
  expect(of(usual, 'coil-resistance', 'cock-shut')).toBeUndefined();
  expect(notReached(usual, `${NAME}/coil-resistance`)).toContainEqual({ bench: 'own-transformer', fault: 'cock-shut' });
  expect(of(usual, 'coil-resistance', undefined)).toMatchObject({ asIn: 'coil-open' });
});

test('all corners reach from the lowest line to the highest, with the meter’s accuracy on top', () => {
  const usually = of(usual, 'power-at-r-and-c', 'coil-open');
  const everywhere = of(all, 'power-at-r-and-c', 'coil-open');
  const [low, high, value] = [everywhere?.low, everywhere?.high, usually?.value].map(Number);
  expect(everywhere?.value).toBe(usually?.value);
  // Line volts go from 108 to 126 where 120 is usual; the secondary is in proportion, and the meter is good to 1 % and 3 counts of 0.1 V.
  expect((low ?? 0) / (value ?? 1)).toBeCloseTo((108 / 120) * 0.99, 1);
  expect((high ?? 0) / (value ?? 1)).toBeCloseTo((126 / 120) * 1.01, 1);
  expect(Number(usually?.high) - Number(usually?.low)).toBeCloseTo(2 * (0.01 * (value ?? 0) + 0.3), 1);
});

test('an edge that lies within what a fault reads is told; edges that leave room are not', () => {
  expect(onAnEdge(at(all, 'power-at-r-and-c'))).toEqual([]);
  const moved = valuesOf(
    shippedEdition(NAME, (text) =>
      text
        .replace('- below 85 % of coil-rated: [Where the 24 V comes from]', '- below 26 V: [Where the 24 V comes from]')
        .replace(
          '- 85 % of coil-rated to 125 % of coil-rated: [Close the circuit by hand]',
          '- 26 V to 125 % of coil-rated: [Close the circuit by hand]',
        ),
    ),
  );
  const close = onAnEdge(at(moved.all, 'power-at-r-and-c'));
  expect(close.map(({ fault }) => fault)).toContain('coil-open');
  expect(close[0]?.ways).toHaveLength(2);
});

test('near values of one band are one group, and a band’s edge parts them', () => {
  const readings = at(all, 'volts-at-the-valve');
  const groups = groupExpected(
    readings,
    axisOf(
      [2, 20.4, 30],
      0,
      readings.flatMap(({ value }) => (value === 'open' ? [] : [value])),
    ),
  );
  expect(groups.flatMap(({ readings: all }) => all)).toHaveLength(readings.length);
  for (const group of groups) expect(new Set(group.readings.map(({ ways }) => ways[0])).size).toBe(1);
  expect(groups.length).toBeLessThan(8);
  expect(namesIn(groups[0] ?? { readings: [] })).toEqual(expect.arrayContaining(['run-open', 'feed-missing']));
});

test('an axis shows edges and readings, by tenfolds where they lie far apart', () => {
  expect(axisOf([2, 20], 0, [27])).toMatchObject({ from: 0, isLog: false });
  const ohms = axisOf([5, 500], 0, [30, 0]);
  expect(ohms).toEqual({ from: 1.25, to: 2000, isLog: true });
  expect(axisOf([], 0, [24]).to).toBeGreaterThan(24);
});
