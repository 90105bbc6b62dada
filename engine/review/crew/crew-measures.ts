import { MEASURE_CODES, type MeasureCode, type WalkReview } from '../walk-review.ts';
import { fisher, holm, type Interval, meanOf, momentsOf, shareOf, welch } from './intervals.ts';

/** One measure over several walks. */
export type MeasureSummary = {
  readonly code: MeasureCode;
  /** The share of walks in which it came up at all; of the minutes, in which it is above 0. */
  readonly share: Interval | undefined;
  /** Its mean a walk. Walks that do not have the measure are in neither. */
  readonly mean: Interval | undefined;
};

/** One person's walks. People are listed by name: a few calls rank nobody. */
export type PersonSummary = { readonly by: string; readonly walks: number; readonly tooFew: boolean; readonly measures: readonly MeasureSummary[] };

/** Something that one person's calls have more or less of than the others', beyond what chance makes of so many comparisons. */
export type Habit = {
  readonly by: string;
  readonly of: MeasureCode | 'step-minutes';
  /** The step that takes longer or shorter. */
  readonly step?: { readonly tree: string; readonly step: string };
  readonly direction: 'more' | 'less';
  readonly own: Interval;
  readonly others: Interval;
};

export type CrewMeasures = {
  readonly walks: number;
  readonly measures: readonly MeasureSummary[];
  readonly people: readonly PersonSummary[];
  readonly habits: readonly Habit[];
};

/** Fewer calls than these say nothing about a person: not even eight out of eight against none of forty would be more than a hint. */
export const LEAST_CALLS = 8;

const COUNTED_IN_MINUTES: readonly MeasureCode[] = ['minutes', 'regret'];

/** Measures of many walks, of each person's, and what stands out. Drills are for the caller to leave out. */
export function crewMeasures(reviews: readonly WalkReview[], nameOf: (review: WalkReview) => string = ({ by }) => by ?? ''): CrewMeasures {
  const people = new Map<string, WalkReview[]>();
  for (const review of reviews) {
    const name = nameOf(review);
    people.set(name, [...(people.get(name) ?? []), review]);
  }
  const named = [...people].sort(([a], [b]) => a.localeCompare(b));
  return {
    walks: reviews.length,
    measures: summaries(reviews),
    people: named.map(([by, own]) => ({ by, walks: own.length, tooFew: own.length < LEAST_CALLS, measures: summaries(own) })),
    habits: habitsOf(named, reviews),
  };
}

const summaries = (reviews: readonly WalkReview[]): readonly MeasureSummary[] =>
  MEASURE_CODES.map((code) => {
    const values = valuesOf(reviews, code);
    return { code, share: shareOf(hitsIn(values), values.length), mean: possible(code, meanOf(values)) };
  });

// Only minutes over the best can be below 0.
const possible = (code: MeasureCode, mean: Interval | undefined): Interval | undefined =>
  mean && code !== 'regret' ? { ...mean, low: Math.max(0, mean.low) } : mean;

const hitsIn = (values: readonly number[]): number => values.filter((value) => value > 0).length;

function valuesOf(reviews: readonly WalkReview[], code: MeasureCode): readonly number[] {
  return reviews.flatMap(({ measures }) => {
    const measure = measures.find((each) => each.code === code);
    return measure && 'value' in measure ? [measure.value] : [];
  });
}

type Tried = { readonly habit: Habit; readonly p: number };

/** Every person against all the others, in every measure and at every step; Holm keeps the whole family at 5 %. */
function habitsOf(people: readonly (readonly [string, readonly WalkReview[]])[], all: readonly WalkReview[]): readonly Habit[] {
  const tried = people
    .filter(([by, own]) => by !== '' && own.length >= LEAST_CALLS && all.length - own.length >= LEAST_CALLS)
    .flatMap(([by, own]): readonly Tried[] => {
      const mine = new Set(own);
      const others = all.filter((review) => !mine.has(review));
      return [
        ...MEASURE_CODES.flatMap((code) =>
          COUNTED_IN_MINUTES.includes(code)
            ? (meansApart(by, code, valuesOf(own, code), valuesOf(others, code)) ?? [])
            : (sharesApart(by, code, valuesOf(own, code), valuesOf(others, code)) ?? []),
        ),
        ...stepsApart(by, own, others),
      ];
    });
  const stands = holm(tried.map(({ p }) => p));
  return tried.flatMap(({ habit }, i) => (stands[i] ? [habit] : []));
}

function sharesApart(by: string, of: MeasureCode, own: readonly number[], others: readonly number[]): Tried | undefined {
  const [mine, theirs] = [shareOf(hitsIn(own), own.length), shareOf(hitsIn(others), others.length)];
  if (!mine || !theirs) return undefined;
  const p = fisher(hitsIn(own), own.length, hitsIn(others), others.length);
  return { habit: { by, of, direction: mine.value > theirs.value ? 'more' : 'less', own: mine, others: theirs }, p };
}

function meansApart(by: string, of: MeasureCode, own: readonly number[], others: readonly number[]): Tried | undefined {
  const [mine, theirs] = [meanOf(own), meanOf(others)];
  const apart = welch(momentsOf(own), momentsOf(others));
  if (!mine || !theirs || !apart) return undefined;
  return { habit: { by, of, direction: mine.value > theirs.value ? 'more' : 'less', own: mine, others: theirs }, p: apart.p };
}

/** Times at a step are compared by their logarithms: they are never below nothing and some are very long. Under a second is no time. */
function stepsApart(by: string, own: readonly WalkReview[], others: readonly WalkReview[]): readonly Tried[] {
  const [mine, theirs] = [minutesByStep(own), minutesByStep(others)];
  return [...mine].flatMap(([key, values]): readonly Tried[] => {
    const rest = theirs.get(key) ?? [];
    if (values.length < LEAST_CALLS || rest.length < LEAST_CALLS) return [];
    const logs = (of: readonly number[]) => momentsOf(of.map((minutes) => Math.log(Math.max(minutes, 1 / 60))));
    const apart = welch(logs(values), logs(rest));
    const [a, b] = [meanOf(values), meanOf(rest)];
    const [tree = '', step = ''] = key.split('/');
    if (!apart || !a || !b) return [];
    return [
      {
        habit: { by, of: 'step-minutes', step: { tree, step }, direction: apart.difference.value > 0 ? 'more' : 'less', own: a, others: b },
        p: apart.p,
      },
    ];
  });
}

function minutesByStep(reviews: readonly WalkReview[]): ReadonlyMap<string, readonly number[]> {
  const by = new Map<string, number[]>();
  for (const { tree, step, kind, minutes, on } of reviews.flatMap(({ stays }) => stays)) {
    if (on === undefined || kind === 'finding' || kind === 'handoff') continue;
    const key = `${tree}/${step}`;
    const known = by.get(key);
    if (known) known.push(minutes);
    else by.set(key, [minutes]);
  }
  return by;
}
