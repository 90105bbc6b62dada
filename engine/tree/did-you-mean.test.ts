import { expect, it } from 'vitest';
import { didYouMean } from './did-you-mean.ts';

const known = ['coil-rated', 'line-volts', 'R', 'C', 'water-runs'];

it.each([
  ['coil-rate', 'coil-rated'],
  ['coli-rated', 'coil-rated'],
  ['Line-Volts', 'line-volts'],
  ['water-rnus', 'water-runs'],
  ['r', 'R'],
])('“%s” was meant for “%s”', (written, meant) => {
  expect(didYouMean(written, known)).toBe(meant);
});

it.each(['D', 'outdoor', 'x'.repeat(500), ''])('nothing is near “%s”', (written) => {
  expect(didYouMean(written, known)).toBeUndefined();
});
