import { expect, test } from 'vitest';
import type { StoredFile } from './desk-file.ts';
import { mergeShipped } from './merge-shipped.ts';

const PATH = 'no-heat.tree.mdx';
const stored = (file: Partial<StoredFile>): ReadonlyMap<string, StoredFile> =>
  new Map([[PATH, { path: PATH, text: 'old', base: 'old', changedAt: 0, version: 3, ...file }]]);
const shipped = (text?: string): ReadonlyMap<string, string> => new Map(text === undefined ? [] : [[PATH, text]]);

test('a file that is new to the desk is taken up', () =>
  expect(mergeShipped(new Map(), shipped('new')).put).toEqual([{ path: PATH, text: 'new', base: 'new', changedAt: 0, version: 1 }]));

test('an untouched file follows the service', () =>
  expect(mergeShipped(stored({}), shipped('new')).put).toMatchObject([{ text: 'new', base: 'new', version: 4 }]));

test('a local copy wins, and knows what the service has', () =>
  expect(mergeShipped(stored({ text: 'mine' }), shipped('new')).put).toMatchObject([{ text: 'mine', base: 'new', version: 3 }]));

test('what was removed here stays removed', () =>
  expect(mergeShipped(stored({ removed: true }), shipped('new')).put).toMatchObject([{ removed: true }]));

test('what the service no longer has is forgotten, unless it was changed here', () => {
  expect(mergeShipped(stored({}), shipped())).toEqual({ put: [], forget: [PATH] });
  const kept = mergeShipped(stored({ text: 'mine' }), shipped());
  expect(kept.forget).toEqual([]);
  expect(kept.put[0]?.text).toBe('mine');
  expect(kept.put[0]).not.toHaveProperty('base');
});

test('nothing is written where nothing changed, nor a file touched that is only here', () => {
  expect(mergeShipped(stored({}), shipped('old'))).toEqual({ put: [], forget: [] });
  const { base: _, ...own } = stored({}).get(PATH) as StoredFile;
  expect(mergeShipped(new Map([[PATH, own]]), shipped())).toEqual({ put: [], forget: [] });
});
