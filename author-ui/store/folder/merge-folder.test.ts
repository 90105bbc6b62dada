import { expect, test } from 'vitest';
import type { StoredFile } from '../desk-file.ts';
import { isWaiting, mergeFolder } from './merge-folder.ts';

const PATH = 'no-heat.tree.mdx';
const row = (file: Partial<StoredFile>): ReadonlyMap<string, StoredFile> =>
  new Map([[PATH, { path: PATH, text: 'old', base: 'old', changedAt: 0, version: 3, ...file }]]);
const only = (text: string): StoredFile => ({ path: PATH, text, changedAt: 1, version: 1 });
const folder = (text?: string): ReadonlyMap<string, string> => new Map(text === undefined ? [] : [[PATH, text]]);

test.each([
  ['untouched here and changed there follows', row({}), folder('theirs'), { put: [{ text: 'theirs', base: 'theirs', version: 4 }] }],
  ['untouched here and gone there goes', row({}), folder(), { forget: [PATH] }],
  ['changed here alone waits', row({ text: 'mine' }), folder('old'), {}],
  ['changed to the same on both sides is settled', row({ text: 'new' }), folder('new'), { put: [{ text: 'new', base: 'new' }] }],
  ['removed on both sides is forgotten', row({ removed: true }), folder(), { forget: [PATH] }],
  ['removed here alone waits', row({ removed: true }), folder('old'), {}],
  [
    'removed here long ago and made anew there comes',
    new Map([[PATH, { ...only('old'), removed: true as const }]]),
    folder('new'),
    { put: [{ text: 'new', base: 'new' }] },
  ],
] as const)('what is %s', (_, rows, texts, wanted) => {
  const { put, forget, conflicts } = mergeFolder(rows, texts);
  expect(conflicts).toEqual([]);
  expect(put).toEqual(('put' in wanted ? wanted.put : []).map((one) => expect.objectContaining(one)));
  expect(put.every(({ removed }) => removed !== true)).toBe(true);
  expect(forget).toEqual('forget' in wanted ? wanted.forget : []);
});

test.each([
  ['changed on both sides', row({ text: 'mine' }), folder('theirs'), 'theirs'],
  ['changed here and gone there', row({ text: 'mine' }), folder(), undefined],
  ['removed here and changed there', row({ removed: true }), folder('theirs'), 'theirs'],
  ['made on both sides under one name', new Map([[PATH, only('mine')]]), folder('theirs'), 'theirs'],
] as const)('what is %s is a conflict, and its row stays as it is', (_, rows, texts, theirs) => {
  const { put, forget, conflicts } = mergeFolder(rows, texts);
  expect(conflicts).toEqual([{ path: PATH, theirs }]);
  expect([put, forget]).toEqual([[], []]);
});

test('a change waits until the folder has it', () => {
  expect(isWaiting({ ...only('mine') })).toBe(true);
  expect(isWaiting({ ...only('mine'), base: 'mine' })).toBe(false);
  expect(isWaiting({ ...only('mine'), removed: true })).toBe(false);
  expect(isWaiting({ ...only('mine'), base: 'mine', removed: true })).toBe(true);
});
