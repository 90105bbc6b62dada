import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type EditionShelf, editionShelf } from './edition-shelf.ts';
import { SHIPPED_TREES } from './serve.ts';

const FLAGSHIP = 'no-water-at-the-pad';

let trees: string;
let shelf: EditionShelf;

beforeEach(async () => {
  trees = await mkdtemp(join(tmpdir(), 'ohmward-shelf-'));
  await cp(SHIPPED_TREES, trees, { recursive: true });
  shelf = editionShelf(trees);
});

afterEach(() => rm(trees, { recursive: true }));

const flagshipHash = async (): Promise<string | undefined> => (await shelf.current()).entries.find(({ name }) => name === FLAGSHIP)?.hash;

const edit = async (change: (text: string) => string): Promise<void> => {
  const file = join(trees, `${FLAGSHIP}.tree.mdx`);
  await writeFile(file, change(await readFile(file, 'utf8')));
};

test('a tree that is edited makes a new edition, and the one before stays readable', async () => {
  const before = await flagshipHash();
  await edit((text) => text.replace(/^title: .+$/m, 'title: No water, again'));
  const after = await flagshipHash();
  expect(after).not.toBe(before);
  expect(await shelf.text(after ?? '')).toContain('No water, again');
  expect(await shelf.text(before ?? '')).not.toContain('No water, again');
});

test('an unchanged folder is looked at once, also by many at a time', async () => {
  const looks = await Promise.all([shelf.current(), shelf.current(), shelf.current()]);
  expect(new Set(looks.map(({ entries }) => entries)).size).toBe(1);
  expect((await shelf.current()).entries).toBe(looks[0]?.entries);
});

test('a tree with an error makes no edition, and the others do', async () => {
  const all = (await shelf.current()).entries.length;
  await edit((text) => text.replace('](#the-control-asks)', '](#no-such-step)'));
  const { entries, problems } = await shelf.current();
  expect(entries.map(({ name }) => name)).not.toContain(FLAGSHIP);
  expect(entries.length).toBeGreaterThan(0);
  expect(entries.length).toBeLessThan(all);
  expect(problems.map(({ code }) => code)).toContain('missing-target');
});

test('there is no text for a hash that was never made', async () => expect(await shelf.text('0'.repeat(64))).toBeUndefined());
