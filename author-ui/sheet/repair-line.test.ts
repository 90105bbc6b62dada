import { expect, test } from 'vitest';
import type { Prose } from '../../engine/tree/index.ts';
import { repairLine } from './repair-line.ts';

const prose = (...texts: readonly string[]): Prose => texts.map((value) => ({ type: 'paragraph', children: [{ type: 'text', value }] }));

test('whole sentences, as many as fit', () => {
  const repair = prose('Never jumper it. Let it cool. If it closes, find the heat: filter, closed registers, blower.');
  expect(repairLine(repair, 200)).toBe('Never jumper it. Let it cool. If it closes, find the heat: filter, closed registers, blower.');
  expect(repairLine(prose('Part the wire at the rod and read each of the two alone. Bend it back. Replace it.'), 75)).toBe(
    'Part the wire at the rod and read each of the two alone. Bend it back.',
  );
});

test('a warning alone is no repair: what is to be done comes with it, even where it is long', () => {
  const repair = prose('Never jumper it. Let it cool. If it closes, find the heat: filter, closed registers, blower. Read on.');
  expect(repairLine(repair, 40)).toBe('Never jumper it. Let it cool. If it closes, find the heat: filter, closed registers, blower.');
});

test('the first sentence is never cut, however long', () => {
  expect(repairLine(prose('Replace the valve with one of the same coil voltage. Power off first.'), 10)).toBe(
    'Replace the valve with one of the same coil voltage.',
  );
});

test('“in. w.c.” ends no sentence, and paragraphs run on', () => {
  expect(repairLine(prose('Set it to 3.5 in. w.c. by the plate.', 'Read again.'), 100)).toBe('Set it to 3.5 in. w.c. by the plate. Read again.');
});

test('without a repair there is nothing to say', () => expect(repairLine([], 50)).toBe(''));
