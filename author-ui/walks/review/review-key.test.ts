import { expect, test } from 'vitest';
import { confirmationOf, reviewKey } from './review-key.ts';

const LINES = [{ hash: 'a' }, { hash: 'b' }];

test('a longer log, another log and another word on the finding are each reviewed anew', () => {
  const keys = [
    reviewKey('w', LINES, undefined),
    reviewKey('w', LINES.slice(0, 1), undefined),
    reviewKey('w', [{ hash: 'a' }, { hash: 'c' }], undefined),
    reviewKey('v', LINES, undefined),
    reviewKey('w', LINES, { held: true }),
    reviewKey('w', LINES, { held: false }),
    reviewKey('w', LINES, { held: false, bench: 'own', fault: 'coil' }),
  ];
  expect(new Set(keys).size).toBe(keys.length);
  expect(reviewKey('w', [...LINES], { held: true })).toBe(keys[4]);
});

test('what was taken back is nothing learnt', () => {
  expect(confirmationOf({})).toBeUndefined();
  expect(confirmationOf({ held: false, bench: 'own', fault: 'coil' })).toEqual({ held: false, bench: 'own', fault: 'coil' });
});
