import { expect, test } from 'vitest';
import { habitWords, leftWords, meanWords, shareWords } from './crew-words.ts';

const interval = (value: number, low: number, high: number, n = 10) => ({ value, low, high, n });

test('an interval is told with its ends, in the unit of its measure', () => {
  expect(shareWords(interval(0.25, 0.1, 0.5))).toBe('25 % (10 % to 50 %)');
  expect(meanWords('minutes', interval(12.34, 8, 20))).toBe('12 min (8.0 min to 20 min)');
  expect(meanWords('redundant', interval(1.25, 0.5, 2))).toBe('1.3 (0.5 to 2.0)');
});

test('a mean of one call can be anything', () =>
  expect(meanWords('redundant', interval(2, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, 1))).toBe('2.0 (one call: could be anything)'));

test('a habit says whose, what, how much, and beside what', () => {
  expect(habitWords({ by: 'Ada', of: 'skipped', direction: 'more', own: interval(0.5, 0, 1, 12), others: interval(0.1, 0, 1, 40) })).toBe(
    'Ada: more calls with “steps passed over” — 50 % over 12 calls; the others 10 % over 40.',
  );
  expect(
    habitWords({
      by: 'Ada',
      of: 'step-minutes',
      step: { tree: 't', step: 'coil-ohms' },
      direction: 'more',
      own: interval(6, 5, 7, 12),
      others: interval(2, 1, 3, 40),
    }),
  ).toBe('Ada: more time at “coil ohms” — 6.0 min over 12 calls; the others 2.0 min over 40.');
});

test('only what was left out is told', () => {
  expect(leftWords({ away: 0, unread: 0, editionless: 0, failed: 0 })).toEqual([]);
  expect(leftWords({ away: 1, unread: 4, editionless: 2, failed: 3 })).toHaveLength(4);
});
