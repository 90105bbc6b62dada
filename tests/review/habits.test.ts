import { beforeAll, describe, expect, it } from 'vitest';
import { type CrewMeasures, crewMeasures, type MeasureCode, Reviewer, type WalkReview } from '../../engine/review/index.ts';
import type { WalkableEdition } from '../../engine/walk/index.ts';
import type { GeneratedCall, Habits, PlantedCode } from './testing/generated-call.ts';
import { type GeneratedTech, generatedCrew } from './testing/generated-crew.ts';
import { shelfGrounds } from './testing/shelf-grounds.ts';

// Forty techs with fifty calls each on trees of the shelf. Everybody slips now and then; some have a habit. What the measures find must be what was
// planted: on every call the very lines, and over the crew the very people. The slow one needs a seed that brings eight calls past the slow step, the careless readings enough.

const TREES = ['condensate-or-float-switch-holds-off', 'control-has-no-power', 'outdoor-sensor-lies', 'water-never-stops'];
const SLIPS: Habits = { fastCautions: 0.02, guesses: 0.01, readsAgain: 0.01, noRecheck: 0.02, couldNots: 0.003, atEdges: 0.01 };

type Planted = {
  readonly name: string;
  readonly habits?: Partial<Habits>;
  readonly found: readonly MeasureCode[];
  readonly follows: readonly MeasureCode[];
};

// What a habit is found as, and what it also brings with it: who guesses wrong walks the tree again, who gives up closes sooner.
const KINDS: readonly Planted[] = [
  { name: 'hasty', habits: { fastCautions: 0.5 }, found: ['fast-caution'], follows: ['minutes'] },
  {
    name: 'guesser',
    habits: { guesses: 0.5 },
    found: ['premature'],
    follows: ['skipped', 'redundant', 'minutes', 'regret', 'put-back-late', 'accepted-too-close', 'streak'],
  },
  { name: 'repeater', habits: { readsAgain: 0.2 }, found: ['redundant', 'skipped'], follows: ['minutes', 'regret', 'streak', 'accepted-too-close'] },
  { name: 'leaver', habits: { noRecheck: 0.5 }, found: ['not-rechecked'], follows: ['minutes'] },
  {
    name: 'giver-up',
    habits: { couldNots: 0.1 },
    found: ['could-not'],
    follows: ['skipped', 'minutes', 'regret', 'put-back-late', 'redundant', 'streak'],
  },
  { name: 'careless', habits: { atEdges: 0.3 }, found: ['accepted-too-close'], follows: [] },
];
const EACH = 3;

const grounds = shelfGrounds(TREES);
const slowKey = grounds[0]?.edition.compiled.start ?? '';
const techs: readonly GeneratedTech[] = Array.from({ length: 40 }, (_, i) => {
  const kind = KINDS[Math.floor(i / EACH)];
  if (kind) return { by: `${kind.name} ${i}`, habits: { ...SLIPS, ...kind.habits } };
  return i === KINDS.length * EACH ? { by: `slow ${i}`, habits: SLIPS, slow: { key: slowKey, times: 3 } } : { by: `steady ${i}`, habits: SLIPS };
});

const reviewed: { readonly call: GeneratedCall; readonly review: WalkReview }[] = [];
let crew: CrewMeasures;

beforeAll(() => {
  const reviewers = new Map<WalkableEdition, Reviewer>();
  for (const call of generatedCrew({ grounds, techs, calls: 50, seed: 7 })) {
    const { edition } = call.ground;
    const reviewer = reviewers.get(edition) ?? new Reviewer(edition);
    reviewers.set(edition, reviewer);
    reviewed.push({ call, review: reviewer.review(call.lines) });
  }
  crew = crewMeasures(reviewed.map(({ review }) => review));
}, 600_000);

const linesOf = ({ measures }: WalkReview, code: MeasureCode): readonly number[] => {
  const measure = measures.find((each) => each.code === code);
  return measure && 'value' in measure ? measure.evidence.map(({ seq }) => seq) : [];
};
const plantedIn = ({ planted }: GeneratedCall, code: PlantedCode): readonly number[] =>
  planted.flatMap((each) => (each.code === code ? [each.seq] : []));

describe('a crew of 40 with 50 calls each', () => {
  it('has all its calls, and all of them can be trusted', () => {
    expect(reviewed).toHaveLength(2000);
    expect(reviewed.filter(({ review }) => review.problems.length > 0)).toEqual([]);
    const codes = new Set(reviewed.flatMap(({ call }) => call.planted.map(({ code }) => code)));
    expect([...codes].sort()).toEqual(['accepted-too-close', 'could-not', 'fast-caution', 'not-rechecked', 'premature', 'redundant', 'skipped']);
  });

  it.each(['fast-caution', 'skipped', 'could-not', 'not-rechecked', 'accepted-too-close'] as const)(
    '%s: the very lines that were planted, on every call',
    (code) => {
      const wrong = reviewed.filter(({ call, review }) => plantedIn(call, code).join() !== linesOf(review, code).join());
      expect(wrong.map(({ call, review }) => [review.walk, plantedIn(call, code), linesOf(review, code)])).toEqual([]);
    },
  );

  it('redundant: every reading that was taken twice, and beside these only what the tree itself asks when one thing is left, or what is asked again after a repair that did not help', () => {
    for (const { call, review } of reviewed) {
      const found = review.measures.find(({ code }) => code === 'redundant');
      if (!found || !('value' in found)) throw new Error('no redundant readings measured');
      const planted = plantedIn(call, 'redundant');
      expect(linesOf(review, 'redundant')).toEqual(expect.arrayContaining([...planted]));
      const firstFailed = call.lines.find(({ event }) => event.type === 'rechecked')?.seq ?? Number.POSITIVE_INFINITY;
      const others = found.evidence.filter(({ seq }) => !planted.includes(seq) && seq < firstFailed);
      expect(others.filter(({ values }) => values?.left !== 1)).toEqual([]);
    }
  });

  it('premature: every guess, unless only one thing was left by then, and nothing that followed a tree to its end with numbers that told', () => {
    const guessed = reviewed.filter(({ call }) => plantedIn(call, 'premature').length > 0);
    const found = guessed.filter(({ call, review }) => plantedIn(call, 'premature').every((seq) => linesOf(review, 'premature').includes(seq)));
    expect(guessed.length).toBeGreaterThan(50);
    expect(found.length / guessed.length).toBeGreaterThan(0.9);
    // A number taken at an edge leaves open what the tree then takes as told: a finding on it may well be too early.
    const innocent = reviewed.filter(
      ({ call, review }) =>
        plantedIn(call, 'premature').length === 0 && plantedIn(call, 'accepted-too-close').length === 0 && linesOf(review, 'premature').length > 0,
    );
    expect(innocent.map(({ call }) => [call.ground.bench, call.fault, call.by])).toEqual([]);
  });

  it('put back late, and readings that only confirmed: on no call that only followed its tree', () => {
    const plain = reviewed.filter(({ call }) => call.planted.every(({ code }) => code === 'fast-caution' || code === 'not-rechecked'));
    expect(plain.length).toBeGreaterThan(1000);
    const failed = ({ lines }: GeneratedCall): boolean => lines.filter(({ event }) => event.type === 'rechecked').length > 1;
    const wrong = plain.filter(({ call, review }) => !failed(call) && [...linesOf(review, 'put-back-late'), ...linesOf(review, 'streak')].length > 0);
    expect(wrong.map(({ review }) => [review.walk, linesOf(review, 'put-back-late'), linesOf(review, 'streak')])).toEqual([]);
  });

  it('minutes are those that passed, pauses taken out', () => {
    for (const { call, review } of reviewed) {
      const minutes = review.measures.find(({ code }) => code === 'minutes');
      if (minutes && 'value' in minutes) expect(minutes.value).toBeCloseTo(call.minutes, 6);
    }
  });

  it('what stands out is who has a habit, in what that habit is', () => {
    for (const { by } of techs) {
      const own = crew.habits.filter((habit) => habit.by === by);
      const kind = KINDS.find(({ name }) => by.startsWith(name));
      const more = own.filter(({ direction }) => direction === 'more').map(({ of }) => of);
      if (by.startsWith('slow')) {
        expect(own.filter(({ of }) => of === 'step-minutes')).toMatchObject([{ direction: 'more', step: { step: slowKey.split('/')[1] } }]);
        expect(own.filter(({ of }) => of !== 'step-minutes' && of !== 'minutes')).toEqual([]);
      } else if (kind) {
        expect(more, by).toEqual(expect.arrayContaining([...kind.found]));
        expect(
          own.map(({ of }) => of).filter((of) => !([...kind.found, ...kind.follows] as string[]).includes(of)),
          by,
        ).toEqual([]);
      } else expect(own, by).toEqual([]);
    }
  });

  it('three calls of anyone make nothing stand out', () => {
    const few = techs.flatMap(({ by }) => reviewed.filter(({ call }) => call.by === by).slice(0, 3));
    expect(crewMeasures(few.map(({ review }) => review)).habits).toEqual([]);
  });
});
