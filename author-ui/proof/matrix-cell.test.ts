import { expect, test } from 'vitest';
import { cellOf, cellText } from './matrix-cell.ts';

const finding = (...names: string[]) => ({ key: 't/f', tree: 't', step: 'f', title: 'F', kind: 'finding' as const, names });
const BENCH = new Set(['coil-open', 'feed-missing']);

test('a finding is right for the one fault it names, ambiguous among several of the bench, wrong for any other', () => {
  expect(cellOf(finding('coil-open'), 'coil-open', BENCH, 2)).toEqual({ kind: 'right', count: 2, group: 1 });
  // A name of another bench does not make it ambiguous on this one.
  expect(cellOf(finding('coil-open', 'elsewhere'), 'coil-open', BENCH, 1).kind).toBe('right');
  expect(cellText(cellOf(finding('coil-open', 'feed-missing'), 'coil-open', BENCH, 1))).toBe('one of 2');
  expect(cellOf(finding('feed-missing'), 'coil-open', BENCH, 1).kind).toBe('wrong');
  expect(cellOf(finding(), 'coil-open', BENCH, 1).kind).toBe('wrong');
});

test('a sound circuit belongs where nothing is named, and a handoff solves nothing', () => {
  expect(cellOf(finding(), undefined, BENCH, 1).kind).toBe('right');
  expect(cellOf(finding('coil-open'), undefined, BENCH, 1).kind).toBe('wrong');
  expect(cellOf({ ...finding(), kind: 'handoff' }, 'coil-open', BENCH, 1).kind).toBe('unsolved');
});
