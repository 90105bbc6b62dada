import { describe, expect, test } from 'vitest';
import { factBox, factCorners } from './fact-corners.ts';
import { nearest } from './nearest.ts';
import { asFound, situationKey, withFault, withJumper, withLanded, withLifted, withoutFault, withoutJumper } from './situation.ts';
import { soundBench, VALVE } from './testing/bench-text.ts';

const bench = soundBench(VALVE);
const start = asFound(bench);

describe('edits of a situation', () => {
  test('as found: first states, usual facts', () => {
    expect(start).toEqual({
      settings: { 'main-power': 'on', call: 'on' },
      facts: { 'line-volts': 120, run: 40 * 0.3048 },
      faults: [],
      jumpers: [],
      lifted: [],
    });
  });

  test('the order of edits does not matter, and doing one twice changes nothing', () => {
    const one = withLifted(withJumper(withFault(withFault(start, 'coil-open'), 'cock-shut'), 'K1', 'K2'), 'coil-hot');
    const other = withFault(withFault(withJumper(withJumper(withLifted(start, 'coil-hot'), 'K2', 'K1'), 'K1', 'K2'), 'cock-shut'), 'coil-open');
    expect(other).toEqual(one);
    expect(situationKey(other)).toBe(situationKey(one));
    expect(situationKey(one)).not.toBe(situationKey(start));
    expect(withoutFault(withoutFault(withoutJumper(withLanded(one, 'coil-hot'), 'K2', 'K1'), 'coil-open'), 'cock-shut')).toEqual(start);
  });
});

describe('fact corners', () => {
  test('the usual values first, then each end of each fact: three to the power of the facts that vary', () => {
    const corners = factCorners(bench);
    expect(corners.length).toBe(9);
    expect(corners[0]).toEqual(start.facts);
    expect(new Set(corners.map((corner) => JSON.stringify(corner))).size).toBe(9);
    expect(factBox(bench)['line-volts']).toEqual({ usual: 120, from: 108, to: 126 });
  });

  test('many facts: usual, each end alone, and the two ends of all', () => {
    const many = Array.from({ length: 6 }, (_, i) => `  f${i}: { quantity: length, ask: Length, usual: 2 ft, from: 1 ft, to: 3 ft }`).join('\n');
    const wide = soundBench(VALVE.replace('facts:', `facts:\n${many}`).replace('length: 1 ft', 'length: f0 + f1 + f2 + f3 + f4 + f5'));
    expect(factCorners(wide).length).toBe(1 + 2 * 8 + 2);
  });
});

describe('the name that was meant', () => {
  test.each([
    ['valve-col', ['valve-coil', 'control'], 'valve-coil'],
    ['Valve_Coil', ['valve-coil'], 'valve-coil'],
    ['K1', ['K2', 'R'], 'K2'],
    ['R', ['C', 'W'], undefined],
    ['nothing-like-it', ['valve-coil'], undefined],
  ])('%s', (name, known, meant) => {
    expect(nearest(name, known)).toBe(meant);
  });
});
