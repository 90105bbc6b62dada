import 'fake-indexeddb/auto';
import { afterEach, expect, test } from 'vitest';
import { type DeskDb, openDeskDb } from '../desk-db.ts';
import { DeskStore } from '../desk-store.ts';
import { folderSources } from './folder-sources.ts';
import { FolderSync } from './folder-sync.ts';

const PATH = 'no-heat.tree.mdx';
const OTHER = 'no-water.tree.mdx';

let names = 0;
let open: DeskDb[] = [];
afterEach(() => {
  for (const db of open) db.close();
  open = [];
});

/** A window on a folder of files; `held` keeps what it has read of the folder from the store until it is let go. */
async function openFolder(folder: Map<string, string>) {
  names += 1;
  const db = openDeskDb(`folder-${names}`);
  open.push(db);
  let looks = 0;
  let held: Promise<void> = Promise.resolve();
  const sync = new FolderSync({
    db,
    open: async () => ({
      list: async () => {
        // Every look finds every file changed, so that it is read.
        looks += 1;
        return { files: [...folder].map(([path, text]) => ({ path, changed: looks, size: text.length })), leftAlone: [] };
      },
      read: async (path) => folder.get(path),
      write: async (path, text) => void folder.set(path, text),
      remove: async (path) => void folder.delete(path),
    }),
    permission: async () => 'granted',
    askPermission: async () => 'granted',
    alone: (work) => work(),
    later: () => () => undefined,
  });
  const store = new DeskStore({
    db,
    now: () => 1,
    merge: sync.merge,
    fetchShipped: async () => {
      const texts = await sync.texts();
      await held;
      return folderSources(texts, true, []);
    },
  });
  sync.join(store);
  await store.start();
  const hold = (): (() => void) => {
    let letGo = (): void => undefined;
    held = new Promise((resolve) => {
      letGo = resolve;
    });
    return letGo;
  };
  return { sync, store, hold, text: (path = PATH) => store.files().get(path)?.text };
}

/** What is done here and written to the folder after the folder was read, and before the store has what was read. */
const MEANWHILE = {
  'a text': { work: (store: DeskStore) => store.write(PATH, 'mine', 'Type'), after: 'mine' },
  'a file that is gone': { work: (store: DeskStore) => store.remove(PATH, 'Remove'), after: undefined },
} as const;

test.each(Object.entries(MEANWHILE))(
  '%s that was written while the folder was being read is not undone by what was read',
  async (_, { work, after }) => {
    const folder = new Map([[PATH, 'theirs']]);
    const { sync, store, hold, text } = await openFolder(folder);
    const letGo = hold();
    const reading = store.refresh();
    await new Promise((resolve) => setTimeout(resolve));
    work(store);
    await sync.write();
    expect(folder.get(PATH)).toBe(after);
    letGo();
    await reading;
    expect(text()).toBe(after);
    // And the next change reaches the folder, as no conflict.
    store.write(PATH, 'mine again', 'Type');
    await sync.write();
    expect(sync.snapshot().conflicts).toEqual([]);
    expect(folder.get(PATH)).toBe('mine again');
  },
);

test('a file that came to be while the folder was being read is still there, and what another program did elsewhere is taken', async () => {
  const folder = new Map([[PATH, 'theirs']]);
  const { sync, store, hold, text } = await openFolder(folder);
  folder.set(PATH, 'theirs, changed');
  const letGo = hold();
  const reading = store.refresh();
  await new Promise((resolve) => setTimeout(resolve));
  store.write(OTHER, 'new', 'Begin');
  await sync.write();
  letGo();
  await reading;
  expect(text(OTHER)).toBe('new');
  expect(text()).toBe('theirs, changed');
  await store.refresh();
  expect([...store.files().keys()].sort()).toEqual([PATH, OTHER]);
  expect(sync.snapshot().waiting).toEqual([]);
});

test('a change of the folder that could not be taken because it was written to meanwhile is taken at the next look', async () => {
  const folder = new Map([[PATH, 'theirs']]);
  const { sync, store, hold, text } = await openFolder(folder);
  const letGo = hold();
  const reading = store.refresh();
  await new Promise((resolve) => setTimeout(resolve));
  store.write(PATH, 'mine', 'Type');
  await sync.write();
  folder.set(PATH, 'another program');
  letGo();
  await reading;
  expect(text()).toBe('mine');
  await store.refresh();
  expect(text()).toBe('another program');
  expect(sync.snapshot().conflicts).toEqual([]);
});
