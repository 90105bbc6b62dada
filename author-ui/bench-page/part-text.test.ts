import { expect, test } from 'vitest';
import { faultShares, partText, shareText } from './part-text.ts';

test('a part is told by what its file says of it', () => {
  expect(partText({ kind: 'wire', between: ['R', 'K1'], gauge: '18 AWG', length: '0.5 ft' })).toBe('between R to K1, gauge 18 AWG, length 0.5 ft');
  expect(partText({ kind: 'state', is: 'open', label: 'Supply cock' })).toBe('is open');
});

test('shares are of all weights', () => {
  const fault = (weight: number) => ({ part: 'a', becomes: 'open', weight });
  const shares = faultShares({ a: fault(3), b: fault(1) });
  expect(shares).toEqual({ a: 75, b: 25 });
  expect(shareText(75)).toBe('75 %');
  expect(shareText(0.37)).toBe('0.4 %');
});
