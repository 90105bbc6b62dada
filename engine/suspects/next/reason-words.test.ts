import { describe, expect, it } from 'vitest';
import { outcomeWords, reasonWords } from './reason-words.ts';

const leaves = (probability: number, ...faults: string[]) => ({ probability, faults });

describe('why a reading is worth taking', () => {
  it.each([
    [[leaves(0.5, 'feed-missing', 'a', 'b'), leaves(0.4, 'contact-stuck', 'c', 'd')], 'splits feed missing and contact stuck: 3 left either way'],
    [[leaves(0.7, 'feed-missing', 'a'), leaves(0.3, 'contact-stuck', 'c', 'd')], 'splits feed missing and contact stuck: 2 or 3 left'],
    [[leaves(0.6, 'coil-open'), leaves(0.4, 'valve-stuck')], 'tells coil open from valve stuck'],
    [[leaves(0.6, 'coil-open'), leaves(0.4, 'valve-stuck', 'cock-shut')], 'settles coil open, or leaves 2'],
    [[leaves(0.5, 'a'), leaves(0.3, 'b'), leaves(0.2, 'c')], 'tells a, b and 1 more apart'],
    [[leaves(0.5, 'a'), leaves(0.3, '')], 'tells a from nothing wrong'],
    [[leaves(1, 'a', 'b')], 'tells nothing new'],
  ])('%j', (shows, words) => expect(reasonWords(shows)).toBe(words));

  it('outcomes are shown as a meter shows them', () => {
    const volts = { kind: 'reading', takes: 'ac-voltage', across: ['R', 'C'] } as const;
    expect(outcomeWords(volts, { low: 23.1, high: 28.2, open: false })).toBe('23 V to 28 V');
    expect(outcomeWords({ ...volts, takes: 'resistance' }, { low: Number.POSITIVE_INFINITY, high: Number.POSITIVE_INFINITY, open: true })).toBe('OL');
    expect(outcomeWords({ kind: 'look', sign: 'display-lit' }, { low: 0, high: 0, open: false })).toBe('no');
  });
});
