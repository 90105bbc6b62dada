import { describe, expect, it } from 'vitest';
import type { Bench } from '../../../engine/bench/index.ts';
import { SHIPPED } from '../../../tests/browser/ladder/shipped-benches.ts';
import { closedAtRest } from './at-rest.ts';
import { benchOf, partBetween } from './testing/random-bench.ts';

const bench: Bench = {
  ...benchOf([]),
  settings: { call: ['on', 'off'], mode: ['idle', 'run'] },
  signs: { runs: 'mode is run', again: 'again is no' },
  parts: {
    coil: partBetween('coil', ['A', 'B']),
    plenum: { kind: 'state', is: 'cool' },
    board: { kind: 'sequence', stages: { rest: { run: 'call is on' }, run: {} } },
    relay: { kind: 'contact', between: ['A', 'B'], 'closed-when': 'coil is dropped-out' },
  },
};

// Which form a contact's symbol has: open unless something holds it closed with no power on anything (common practice).
describe('closedAtRest', () => {
  it.each([
    ['a call that asks', 'call is on', false],
    ['a call that does not ask', 'call is off', true],
    ['a setting without an off', 'mode is idle', true],
    ['a relay’s front contact', 'coil is pulled-in', false],
    ['a relay’s back contact', 'coil is not pulled-in', true],
    ['a limit on a part as it should be', 'plenum is cool', true],
    ['a stage that is not the first', 'board is run', false],
    ['volts that are there', 'volts(A, B) above 15 V', false],
    ['volts that are gone', 'volts(A, B) below 5 V', true],
    ['another contact', 'relay is closed', true],
    ['a sign', 'runs is yes', false],
    ['what cannot be read', 'and and', false],
  ])('%s', (_what, condition, closed) => {
    expect(closedAtRest(bench, condition)).toBe(closed);
  });

  it('comes to an end on a sign that asks for itself', () => {
    expect(typeof closedAtRest(bench, 'again is yes')).toBe('boolean');
  });

  it('draws relays open and limits closed on the shipped benches', () => {
    for (const [file, { parts, ...rest }] of SHIPPED) {
      for (const [name, part] of Object.entries(parts)) {
        if (name.endsWith('-limit') && 'closed-when' in part)
          expect([file, name, closedAtRest({ parts, ...rest }, part['closed-when'])]).toEqual([file, name, true]);
        if (name.endsWith('-relay') && 'closed-when' in part)
          expect([file, name, closedAtRest({ parts, ...rest }, part['closed-when'])]).toEqual([file, name, false]);
      }
    }
  });
});
