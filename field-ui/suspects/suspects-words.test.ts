import { describe, expect, it } from 'vitest';
import { chanceWords, faultNames, percentWords } from './suspects-words.ts';

describe('a chance in words', () => {
  it.each([
    [1, 'almost certain', '99\u00a0%'],
    [0.945, 'almost certain', '95\u00a0%'],
    [0.94, '9 in 10', '94\u00a0%'],
    [0.5, '5 in 10', '50\u00a0%'],
    [0.31, '3 in 10', '31\u00a0%'],
    [0.15, '2 in 10', '15\u00a0%'],
    [0.14, '1 in 7', '14\u00a0%'],
    [0.1, '1 in 10', '10\u00a0%'],
    [0.05, '1 in 20', '5\u00a0%'],
    [0.02, '1 in 50', '2\u00a0%'],
    [0.0075, '1 in 100', '1\u00a0%'],
    [0.007, 'less than 1 in 100', ''],
    [0, 'less than 1 in 100', ''],
  ])('%f is %s', (probability, words, percent) => {
    expect([chanceWords(probability), percentWords(probability)]).toEqual([words, percent]);
  });

  it('never goes up as the chance goes down', () => {
    const value = (words: string): number => {
      const [, of, all] = /(\d+) in (\d+)/.exec(words) ?? [];
      return words.startsWith('less') ? 0 : of === undefined ? 1 : Number(of) / Number(all);
    };
    const values = Array.from({ length: 1001 }, (_, i) => value(chanceWords(i / 1000)));
    for (const [i, one] of values.entries()) expect(one).toBeGreaterThanOrEqual(values[i - 1] ?? 0);
  });
});

describe('names of faults', () => {
  it('counts what goes past the line', () => {
    expect(faultNames(['coil-open'])).toBe('coil open');
    expect(faultNames(['coil-open', ''])).toBe('coil open and nothing wrong');
    expect(faultNames(['a', 'b', 'c', 'd'])).toBe('a, b, c and d');
    expect(faultNames(['a', 'b', 'c', 'd', 'e'])).toBe('a, b, c and 2 more');
  });
});
