import { expect, test } from 'vitest';
import type { PublicationEntry } from '../../shared/sync/wire/edition-wire.ts';
import { overtaking, withOwn } from './overtaking.ts';

const entry = (number: number, more: Partial<PublicationEntry> = {}): PublicationEntry => ({
  hash: String(number).repeat(64),
  name: 'no-heat',
  title: 'No heat',
  complaint: '',
  steps: 3,
  number,
  by: 'person-1',
  byName: 'M. Birch',
  at: '2026-01-15T09:00:00.000Z',
  why: 'x',
  changes: [],
  accepted: {},
  ...more,
});
const back = { withdrawn: { at: '', by: '', why: '' } };
const hashOf = (number: number): string => entry(number).hash;
const MINE = 'a'.repeat(64);

test.each<[string, readonly PublicationEntry[], string | undefined, string, number | undefined]>([
  ['the first publication of a tree', [], undefined, MINE, undefined],
  ['one that was made from what the crew walks', [entry(2), entry(1)], hashOf(2), MINE, undefined],
  ['one that is what the crew walks, wherever it came from', [entry(2), entry(1)], undefined, hashOf(2), undefined],
  ['one that was made from what was taken back since', [entry(2, back), entry(1)], hashOf(2), MINE, undefined],
  ['one that was made from what is walked again since', [entry(2, back), entry(1)], hashOf(1), MINE, undefined],
])('%s overtakes nobody', (_what, list, base, hash, number) => expect(overtaking(list, base, hash)?.number).toBe(number));

test.each<[string, readonly PublicationEntry[], string | undefined, number]>([
  ['someone published after what it was made from', [entry(2), entry(1)], hashOf(1), 2],
  ['it is not known what it was made from', [entry(1)], undefined, 1],
  ['it was made from what another hub had', [entry(1)], 'f'.repeat(64), 1],
  ['the newest was taken back, and the one before is not its base', [entry(3, back), entry(2), entry(1)], hashOf(1), 2],
  ['everything was taken back', [entry(1, back)], undefined, 1],
])('is overtaken where %s', (_what, list, base, number) => expect(overtaking(list, base, MINE)?.number).toBe(number));

test('what this desk has just published stands before what the hub last told, and gives way to what the hub tells of it', () => {
  expect(withOwn([entry(1)], undefined)).toEqual([entry(1)]);
  expect(withOwn([entry(1)], entry(2))).toEqual([entry(2), entry(1)]);
  expect(overtaking(withOwn([entry(1)], entry(2)), hashOf(2), hashOf(2))).toBeUndefined();
  expect(withOwn([entry(2, back), entry(1)], entry(2))).toEqual([entry(2, back), entry(1)]);
  expect(withOwn([entry(3), entry(2), entry(1)], entry(2))).toEqual([entry(3), entry(2), entry(1)]);
});
