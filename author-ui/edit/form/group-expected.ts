import type { BenchFault, ExpectedReading, ExpectedValues, MeterValue } from '../../try/expected-values.ts';
import { type Axis, alongAxis } from './reading-scale.ts';

/** Readings that stand at one place of the scale, within what an eye tells apart. */
export type ExpectedGroup = {
  readonly value: MeterValue;
  readonly low: MeterValue;
  readonly high: MeterValue;
  readonly readings: readonly ExpectedReading[];
};

/** Share of the axis within which two values are drawn as one. */
const NEAR = 0.025;

/** The readings of a step by place on the axis, least first and OL last; near ones that lead the same way are one. */
export function groupExpected(readings: readonly ExpectedReading[], axis: Axis): readonly ExpectedGroup[] {
  const place = ({ value }: ExpectedReading): number => (value === 'open' ? Number.POSITIVE_INFINITY : alongAxis(axis, value));
  const size = ({ value }: ExpectedReading): number => (value === 'open' ? Number.POSITIVE_INFINITY : value);
  const groups: ExpectedReading[][] = [];
  for (const reading of [...readings].sort((a, b) => size(a) - size(b) || 0)) {
    const [first] = groups.at(-1) ?? [];
    const isNear =
      first !== undefined && first.ways[0] === reading.ways[0] && (first.value === reading.value || place(reading) - place(first) < NEAR);
    if (isNear) groups.at(-1)?.push(reading);
    else groups.push([reading]);
  }
  return groups.map(grouped);
}

/** Readings, ordered by value, as one. */
const grouped = (readings: readonly ExpectedReading[]): ExpectedGroup => ({
  // What stands in the middle stands for all.
  value: readings[Math.floor((readings.length - 1) / 2)]?.value ?? 'open',
  low: readings.map(({ low }) => low).reduce((a, b) => (a === 'open' ? b : b === 'open' ? a : Math.min(a, b))),
  high: readings.map(({ high }) => high).reduce((a, b) => (a === 'open' || b === 'open' ? 'open' : Math.max(a, b))),
  readings,
});

/** Readings by the bands that they may take, whichever of them first. */
export function byWays(readings: readonly ExpectedReading[]): readonly ExpectedGroup[] {
  const found = new Map<string, ExpectedReading[]>();
  for (const reading of readings) {
    const key = [...reading.ways].sort().join('\n');
    found.set(key, [...(found.get(key) ?? []), reading]);
  }
  return [...found.values()].map(grouped);
}

/** The names of a group, each once: `healthy` for a sound circuit. */
export const namesIn = ({ readings }: Pick<ExpectedGroup, 'readings'>): readonly string[] => [...new Set(readings.map(nameOf))];

/** The names of each group; with the bench where the same fault of another bench stands in another group. */
export function groupNames(groups: readonly ExpectedGroup[]): readonly (readonly string[])[] {
  const groupsOf = (name: string): number => groups.filter((group) => namesIn(group).includes(name)).length;
  return groups.map(({ readings }) => [
    ...new Set(readings.map((one) => (groupsOf(nameOf(one)) > 1 ? `${nameOf(one)} (${one.bench})` : nameOf(one)))),
  ]);
}

export const nameOf = ({ fault }: Pick<BenchFault, 'fault'>): string => fault ?? 'healthy';

/** The readings that a band's edge lies within: where in one house or another, or within the meter's accuracy, more than one way is possible. */
export const onAnEdge = (readings: readonly ExpectedReading[]): readonly ExpectedReading[] => readings.filter(({ ways }) => ways.length > 1);

/** What was walked and does not come to the step. */
export function notReached({ of, steps }: ExpectedValues, key: string): readonly BenchFault[] {
  const here = steps[key];
  const come = new Set([...(here?.readings ?? []), ...(here?.untold ?? [])].map(({ bench, fault }) => `${bench} ${fault ?? ''}`));
  return of.filter(({ bench, fault }) => !come.has(`${bench} ${fault ?? ''}`));
}
