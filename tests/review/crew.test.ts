import { describe, expect, it } from 'vitest';
import { betaInterval, fisher, holm, meanOf, shareDifference, shareOf, welch } from '../../engine/review/crew/intervals.ts';
import {
  compareEditions,
  crewMeasures,
  crewPicture,
  type EditionPicture,
  isSure,
  learntWeights,
  minutesBin,
  type PicturedWalk,
  quantileOf,
  type StepStay,
  type WalkReview,
} from '../../engine/review/index.ts';

describe('intervals', () => {
  // Newcombe, Statistics in Medicine 17 (1998) 857: 81 of 263, Wilson without correction. From memory.
  it('share: 81 of 263', () => {
    const share = shareOf(81, 263);
    expect(share?.low).toBeCloseTo(0.2553, 4);
    expect(share?.high).toBeCloseTo(0.3662, 4);
  });

  it('share: none of some, all of some, and of none', () => {
    expect(shareOf(0, 10)).toMatchObject({ value: 0, low: 0 });
    expect(shareOf(10, 10)).toMatchObject({ value: 1, high: 1 });
    expect(shareOf(0, 0)).toBeUndefined();
  });

  // Newcombe, Statistics in Medicine 17 (1998) 873: 56/70 less 48/80 by method 10 is 0.0524 to 0.3339. From memory.
  it('difference of shares: 56/70 and 48/80', () => {
    const difference = shareDifference(56, 70, 48, 80);
    expect(difference?.value).toBeCloseTo(0.2, 12);
    expect(difference?.low).toBeCloseTo(0.0524, 4);
    expect(difference?.high).toBeCloseTo(0.3339, 4);
  });

  // Fisher's tasting of tea (The Design of Experiments, 1935): 3 of 4 right on both sides, one-sided 17/70, two-sided 34/70.
  it('Fisher’s test: the tasting of tea', () => expect(fisher(3, 4, 1, 4)).toBeCloseTo(34 / 70, 9));

  // t(0.975, 4) = 2.776 (any table of Student's t): 3 ± 2.776 · sqrt(2.5 / 5).
  it('mean of 1 to 5', () => {
    const mean = meanOf([1, 2, 3, 4, 5]);
    expect(mean?.value).toBe(3);
    expect(mean?.low).toBeCloseTo(3 - 2.776 * Math.sqrt(0.5), 3);
    expect(meanOf([7])).toMatchObject({ value: 7, low: Number.NEGATIVE_INFINITY, n: 1 });
  });

  // Equal variances and sizes: Welch is Student with 8 degrees. 3 - 5 over sqrt(2.5/5 · 2) = -2; p of |t| = 2 with 8 degrees is 0.0805 (table).
  it('Welch', () => expect(welch({ n: 5, mean: 3, variance: 2.5 }, { n: 5, mean: 5, variance: 2.5 })?.p).toBeCloseTo(0.0805, 4));

  // Holm’s step-down by hand: 0.01 <= 0.05/4 and 0.0125 <= 0.05/3 stand; 0.03 > 0.05/2 stops it there, so that 0.04 <= 0.05/1 does not stand.
  it('Holm', () => expect(holm([0.01, 0.04, 0.03, 0.0125])).toEqual([true, false, false, true]));

  // The quantiles of Beta(1, 1), which is even, are their own shares; Beta(2, 1) has x² below x.
  it('Beta', () => {
    expect(betaInterval(1, 1).low).toBeCloseTo(0.025, 9);
    expect(betaInterval(2, 1).high).toBeCloseTo(Math.sqrt(0.975), 9);
  });
});

const fault = (weight: number) => ({ weight }) as never;

describe('fault weights learnt', () => {
  it('come to the same however often they are taken into the bench, and back to the first once no call is left', () => {
    const taken = (weights: ReturnType<typeof learntWeights>) => ({
      faults: Object.fromEntries(weights.map(({ fault: name, prior, newWeight }) => [name, { weight: newWeight, prior } as never])),
    });
    const first = learntWeights({ faults: { a: fault(3), b: fault(1) } }, [{ fault: 'b', times: 4 }]);
    const later = learntWeights(taken(first), [{ fault: 'b', times: 10 }]);
    // Ten calls in all, as below: 15 + 0 of 30 and 5 + 10 of 30.
    expect(later.map(({ prior, newWeight }) => [prior, newWeight])).toEqual([
      [3, 2],
      [1, 2],
    ]);
    expect(learntWeights(taken(later), []).map(({ newWeight }) => newWeight)).toEqual([3, 1]);
  });

  // Dirichlet by hand: weights 3 : 1, worth 20 calls: 15 and 5. Ten confirmed of the second: 15/30 and 15/30.
  it('meet in the middle', () => {
    const bench = { faults: { a: fault(3), b: fault(1) } };
    expect(learntWeights(bench, [{ fault: 'b', times: 10 }])).toMatchObject([
      { fault: 'a', share: 0.75, learnt: 0.5, times: 0, newWeight: 2 },
      { fault: 'b', share: 0.25, learnt: 0.5, times: 10, newWeight: 2 },
    ]);
  });

  it('are the bench’s own without calls, and again once a confirmation is taken back', () => {
    const bench = { faults: { a: fault(3), b: fault(1) } };
    for (const { newWeight, weight } of learntWeights(bench, [])) expect(newWeight).toBe(weight);
    expect(learntWeights(bench, [{ fault: 'b', times: 0 }])).toEqual(learntWeights(bench, []));
  });

  it('leave out what the bench does not have', () =>
    expect(learntWeights({ faults: { a: fault(1) } }, [{ fault: 'moon', times: 9 }])).toMatchObject([{ learnt: 1, low: 1, high: 1 }]));
});

const stay = (step: string, minutes: number, more: Partial<StepStay> = {}): StepStay => ({
  place: 0,
  tree: 'pad',
  step,
  title: step,
  kind: 'reading',
  from: 0,
  to: 1,
  minutes,
  on: 'dry',
  tooClose: false,
  acceptedTooClose: false,
  couldNot: false,
  jumped: false,
  steppedBack: false,
  ...more,
});

const walk = (more: Partial<PicturedWalk> = {}): PicturedWalk => ({
  edition: 'e1',
  tree: 'pad',
  drill: false,
  closed: '2026-01-15T10:00:00Z',
  outcome: 'fixed',
  finding: { tree: 'pad', step: 'coil', title: 'Coil', faults: ['coil-open'] },
  stays: [stay('look', 2), stay('volts', 1, { couldNot: true, on: 'cannot' })],
  minutes: 10,
  ...more,
});

describe('a crew’s picture', () => {
  it('counts by edition, and leaves drills and other trees out', () => {
    const picture = crewPicture('pad', [
      walk({ confirmation: { held: true } }),
      walk({ confirmation: { held: false, fault: 'valve-stuck' } }),
      walk({ edition: 'e2', closed: undefined as never, outcome: undefined as never }),
      walk({ drill: true }),
      walk({ tree: 'other' }),
    ]);
    expect(picture.editions.map(({ edition, walks, closed }) => [edition, walks, closed])).toEqual([
      ['e1', 2, 2],
      ['e2', 1, 0],
    ]);
    expect(picture.editions[1]).toMatchObject({ minutesSum: 0, outcomes: {}, findings: [], steps: [] });
    expect(picture.editions[0]).toMatchObject({
      minutesSum: 20,
      outcomes: { fixed: 2 },
      findings: [{ step: 'coil', walks: 2, held: 1, cameBack: 1 }],
      steps: [
        { step: 'look', stays: 2, minutesSum: 4, ways: { dry: 2 }, couldNot: 0 },
        { step: 'volts', stays: 2, couldNot: 2, ways: { cannot: 2 } },
      ],
    });
  });

  // 60 s lie in bin floor(4 · log2 60) = 23, which goes from 2^(23/4) = 53.8 s to 2^6 = 64 s.
  it('keeps minutes in bins that quartiles can be read from', () => {
    expect(minutesBin(1)).toBe(23);
    const bins = { '23': 100 };
    expect(quantileOf(bins, 0)).toBeCloseTo(2 ** (23 / 4) / 60, 9);
    expect(quantileOf(bins, 1)).toBeCloseTo(64 / 60, 9);
    expect(quantileOf({}, 0.5)).toBeUndefined();
    expect(quantileOf({ '23': 1, '40': 3 }, 0.5)).toBeGreaterThan(15);
  });

  const edition = (minutes: number, closed: number, fixed: number): EditionPicture => ({
    edition: 'e',
    walks: closed,
    closed,
    minutes: { [minutesBin(minutes)]: closed / 2, [minutesBin(minutes * 2)]: closed / 2 },
    minutesSum: minutes * 1.5 * closed,
    outcomes: { fixed },
    findings: [],
    steps: [],
  });

  it('says that an edition was quicker only where it was', () => {
    const quicker = compareEditions(edition(20, 60, 50), edition(8, 60, 52));
    expect(quicker.minutes?.value).toBeCloseTo(-18, 9);
    expect(quicker.minutes && isSure(quicker.minutes)).toBe(true);
    expect(quicker.solved && isSure(quicker.solved)).toBe(false);
    expect(compareEditions(edition(20, 60, 50), edition(8, 6, 5))).toEqual({});
  });
});

const review = (by: string, values: Readonly<Record<string, number>>, minutesAtLook: number): WalkReview => ({
  walk: by,
  edition: 'e1',
  tree: 'pad',
  title: 'Pad',
  by,
  drill: false,
  stays: [stay('look', minutesAtLook)],
  measures: Object.entries(values).map(([code, value]) => ({ code: code as never, value, evidence: [] })),
  problems: [],
});

describe('measures of a crew', () => {
  it('lists people by name and says who has too few calls', () => {
    const { people } = crewMeasures([review('Zoe', { skipped: 1 }, 1), ...Array.from({ length: 8 }, () => review('Ann', { skipped: 0 }, 1))]);
    expect(people.map(({ by, walks, tooFew }) => [by, walks, tooFew])).toEqual([
      ['Ann', 8, false],
      ['Zoe', 1, true],
    ]);
  });

  it('three calls never stand out, thirty do', () => {
    const others = Array.from({ length: 90 }, (_, i) => review(['Ann', 'Ben', 'Cay'][i % 3] ?? '', { skipped: 0 }, 1 + (i % 5) / 10));
    const three = Array.from({ length: 3 }, () => review('Dee', { skipped: 2 }, 9));
    const thirty = Array.from({ length: 30 }, (_, i) => review('Dee', { skipped: 2 }, 9 + (i % 5) / 10));
    expect(crewMeasures([...others, ...three]).habits).toEqual([]);
    const found = crewMeasures([...others, ...thirty]).habits.filter(({ direction }) => direction === 'more');
    expect(found.map(({ by, of, step }) => [by, of, step?.step])).toEqual([
      ['Dee', 'skipped', undefined],
      ['Dee', 'step-minutes', 'look'],
    ]);
  });

  it('no mean of what is only counted upwards reaches below 0; minutes over the best may', () => {
    const { measures } = crewMeasures([review('Ann', { minutes: 1, regret: 1 }, 1), review('Ben', { minutes: 100, regret: 100 }, 1)]);
    const low = (code: string) => measures.find((each) => each.code === code)?.mean?.low ?? Number.NaN;
    expect(low('minutes')).toBe(0);
    expect(low('regret')).toBeLessThan(0);
  });

  it('what a walk does not have is in no count', () => {
    const missing: WalkReview = { ...review('Ann', {}, 1), measures: [{ code: 'regret', missing: 'no-bench' }] };
    const { measures } = crewMeasures([missing, review('Ann', { regret: 4 }, 1)]);
    expect(measures.find(({ code }) => code === 'regret')?.mean).toMatchObject({ value: 4, n: 1 });
  });
});
