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

/** A gate that is shut until it is opened, and tells when someone stands before it. */
function gate() {
  let open = (): void => undefined;
  let arrive = (): void => undefined;
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  const arrived = new Promise<void>((resolve) => {
    arrive = resolve;
  });
  const pass = (): Promise<void> => {
    arrive();
    return opened;
  };
  return { open, arrived, pass };
}

type Fake = {
  /** What stands before a write to the folder, and behind it: the file is there, and its writer does not know it yet. */
  readonly write?: { before?: () => Promise<void>; behind?: () => Promise<void> };
  /** What stands before a look at the folder, and between what it has read and the store. */
  readonly look?: { before?: () => Promise<void>; behind?: () => Promise<void> };
};

/** A window on a folder of files. */
async function openFolder(folder: Map<string, string>, { write, look }: Fake = {}) {
  names += 1;
  const db = openDeskDb(`folder-${names}`);
  open.push(db);
  let looks = 0;
  const timers = new Set<() => void>();
  const sync = new FolderSync({
    db,
    open: async () => ({
      list: async () => {
        // Every look finds every file changed, so that it is read.
        looks += 1;
        await look?.before?.();
        return { files: [...folder].map(([path, text]) => ({ path, changed: looks, size: text.length })), leftAlone: [] };
      },
      read: async (path) => folder.get(path),
      write: async (path, text) => {
        await write?.before?.();
        folder.set(path, text);
        await write?.behind?.();
      },
      remove: async (path) => void folder.delete(path),
    }),
    permission: async () => 'granted',
    askPermission: async () => 'granted',
    alone: (work) => work(),
    later: (work) => {
      timers.add(work);
      return () => timers.delete(work);
    },
  });
  const store = new DeskStore({
    db,
    now: () => 1,
    merge: sync.merge,
    fetchShipped: async () => {
      const texts = await sync.texts();
      await look?.behind?.();
      return folderSources(texts, true, []);
    },
  });
  sync.join(store);
  await store.start();
  /** Lets pass what a pause is waited for. */
  const later = async (): Promise<void> => {
    for (const work of timers) work();
    timers.clear();
    await new Promise((resolve) => setTimeout(resolve, 20));
  };
  return { sync, store, later, text: (path = PATH) => store.files().get(path)?.text };
}

/** The same, looking at the folder just now, after `another` program was there: it has read it, and `letGo` gives the store what it read. */
async function openLooking(folder: Map<string, string>, another: () => void = () => undefined) {
  const look: Fake['look'] = {};
  const window = await openFolder(folder, { look });
  another();
  const { open: goOn, arrived, pass } = gate();
  look.behind = pass;
  const reading = window.store.refresh();
  await arrived;
  const letGo = (): Promise<void> => {
    delete look.behind;
    goOn();
    return reading;
  };
  return { ...window, letGo };
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
    const { sync, store, letGo, text } = await openLooking(folder);
    work(store);
    await sync.write();
    expect(folder.get(PATH)).toBe(after);
    await letGo();
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
  const { sync, store, letGo, text } = await openLooking(folder, () => folder.set(PATH, 'theirs, changed'));
  store.write(OTHER, 'new', 'Begin');
  await sync.write();
  await letGo();
  expect(text(OTHER)).toBe('new');
  expect(text()).toBe('theirs, changed');
  await store.refresh();
  expect([...store.files().keys()].sort()).toEqual([PATH, OTHER]);
  expect(sync.snapshot().waiting).toEqual([]);
});

test('a change of the folder that could not be taken because it was written to meanwhile is taken at the next look', async () => {
  const folder = new Map([[PATH, 'theirs']]);
  const { sync, store, letGo, text } = await openLooking(folder);
  store.write(PATH, 'mine', 'Type');
  await sync.write();
  folder.set(PATH, 'another program');
  await letGo();
  expect(text()).toBe('mine');
  await store.refresh();
  expect(text()).toBe('another program');
  expect(sync.snapshot().conflicts).toEqual([]);
});

test('what this window is writing just now is no other program’s change, and what is typed on meanwhile is written next', async () => {
  const folder = new Map([[PATH, 'theirs']]);
  const write: Fake['write'] = {};
  const { sync, store, later } = await openFolder(folder, { write });
  const { open: goOn, arrived, pass } = gate();
  write.behind = pass;
  store.write(PATH, 'mine', 'Type');
  const writing = sync.write();
  await arrived;
  store.write(PATH, 'mine, typed on', 'Type');
  await store.settled();
  await store.refresh();
  expect(sync.snapshot().conflicts).toEqual([]);
  goOn();
  await writing;
  await later();
  expect(folder.get(PATH)).toBe('mine, typed on');
  expect(sync.snapshot().waiting).toEqual([]);
});

/** A window in whose folder a file was changed by another program too. */
async function openConflict(folder: Map<string, string>) {
  const window = await openFolder(folder);
  window.store.write(PATH, 'mine', 'Type');
  await window.store.settled();
  folder.set(PATH, 'another program');
  await window.store.refresh();
  return window;
}

test('a conflict is told at the look that finds it; once the other program has taken its change back, what waited is written', async () => {
  const folder = new Map([[PATH, 'theirs']]);
  const { sync, store, later } = await openConflict(folder);
  expect(sync.snapshot().conflicts).toEqual([{ path: PATH, theirs: 'another program' }]);
  await later();
  expect(folder.get(PATH)).toBe('another program');
  folder.set(PATH, 'theirs');
  await store.refresh();
  expect(sync.snapshot().conflicts).toEqual([]);
  await later();
  expect(folder.get(PATH)).toBe('mine');
  expect(sync.snapshot().waiting).toEqual([]);
});

test('a write that fails during a look stays told, and is tried again by the next one', async () => {
  const folder = new Map([[PATH, 'theirs']]);
  const write: Fake['write'] = {};
  const look: Fake['look'] = {};
  const { sync, store, later } = await openFolder(folder, { write, look });
  const { open: goOn, arrived, pass } = gate();
  look.before = pass;
  const looking = store.refresh();
  await arrived;
  write.before = () => Promise.reject(new DOMException('no room', 'QuotaExceededError'));
  store.write(PATH, 'mine', 'Type');
  await sync.write();
  goOn();
  await looking;
  expect(sync.snapshot()).toMatchObject({ state: { at: 'stopped', why: 'full' }, waiting: [PATH] });
  delete write.before;
  delete look.before;
  await store.refresh();
  await later();
  expect(sync.snapshot()).toMatchObject({ state: { at: 'ready' }, waiting: [] });
  expect(folder.get(PATH)).toBe('mine');
});

test('what is typed while a conflict is being decided for one’s own text is in that text', async () => {
  const folder = new Map([[PATH, 'theirs']]);
  const { sync, store, text } = await openConflict(folder);
  const decided = sync.decide(PATH, 'mine');
  store.write(PATH, 'mine, typed on', 'Type');
  await decided;
  expect(text()).toBe('mine, typed on');
  expect(folder.get(PATH)).toBe('mine, typed on');
});
