import { describe, expect, test } from 'vitest';
import { huffmanLength } from './huffman-length.ts';

// Binary: the worked example of Huffman, "A Method for the Construction of Minimum-Redundancy Codes", Proc. IRE 40 (1952), table I: thirteen messages, 3.42
// digits a message (from memory, recomputed by hand). The others by hand.
const HUFFMAN_1952 = [0.2, 0.18, 0.1, 0.1, 0.1, 0.06, 0.06, 0.04, 0.04, 0.04, 0.04, 0.03, 0.01];

describe('the mean length of a code', () => {
  test.each([
    ['of Huffman’s own example', HUFFMAN_1952, 2, 3.42],
    ['of one symbol', [1], 2, 0],
    ['of three equal ones, two digits', [1 / 3, 1 / 3, 1 / 3], 2, 5 / 3],
    ['of three equal ones, three digits', [1 / 3, 1 / 3, 1 / 3], 3, 1],
    // The first merge takes the odd ones: four symbols of three digits are one of two, then one of three.
    ['of four equal ones, three digits', [0.25, 0.25, 0.25, 0.25], 3, 1.5],
  ])('%s', (_what, weights, arity, length) => {
    expect(huffmanLength(weights, arity)).toBeCloseTo(length, 9);
  });
});
