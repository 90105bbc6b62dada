import 'fake-indexeddb/auto';
import { afterEach, expect, test } from 'vitest';
import { success } from '../../engine/result.ts';
import { type DeskDb, openDeskDb } from './desk-db.ts';
import { DeskPlaces } from './desk-places.ts';
import type { DeskRescue, RescuedRow } from './desk-rescue.ts';
import { DeskStore } from './desk-store.ts';
import { type FolderDb, openFolderDb } from './folder/folder-db.ts';
import type { FolderHandle } from './folder/folder-files.ts';

const PATH = 'no-heat.tree.mdx';

let names = 0;
const open: { close(): void }[] = [];
afterEach(() => {
  for (const one of open.splice(0)) one.close();
});

/** A directory as the browser hands it over, of files that may be written. It can be kept in the storage, as a real one can. */
function directory(files: Map<string, string>): FolderHandle {
  const file = (name: string) => ({
    kind: 'file' as const,
    name,
    getFile: async () => new File([files.get(name) ?? ''], name, { lastModified: 1 }),
    createWritable: async () => {
      let written = '';
      return {
        write: async (text: string) => {
          written += text;
        },
        close: async () => void files.set(name, written),
        abort: async () => undefined,
      };
    },
  });
  const absent = () => Promise.reject(new DOMException('not there', 'NotFoundError'));
  const handle = {
    kind: 'directory',
    name: 'crew-trees',
    async *values() {
      for (const name of files.keys()) yield file(name);
    },
    getDirectoryHandle: absent,
    getFileHandle: (name: string, how?: { create?: boolean }) => (files.has(name) || how?.create ? Promise.resolve(file(name)) : absent()),
    removeEntry: async (name: string) => void files.delete(name),
    isSameEntry: async () => true,
  };
  return handle as unknown as FolderHandle;
}

async function openPlaces(files: Map<string, string>) {
  names += 1;
  const own = `places-${names}`;
  const left: RescuedRow[] = [];
  const rescue: DeskRescue = { leave: (rows) => void left.push(...rows), take: () => ({ rows: [], done: () => undefined }) };
  const dbs = new Map<string, DeskDb>();
  const deleted: string[] = [];
  const openDb = (name: string): DeskDb => {
    const db = openDeskDb(`${own} ${name}`);
    dbs.set(name, db);
    open.push(db);
    return db;
  };
  // A handle with functions cannot be cloned into the storage of a test: what is known of folders is kept beside.
  const folders: FolderDb = openFolderDb(own);
  open.push(folders);
  const places = new DeskPlaces({
    folders,
    browserStore: () =>
      new DeskStore({
        db: openDb('browser'),
        now: () => 1,
        rescue,
        fetchShipped: async () => success({ trees: {}, benches: {}, figures: {}, editions: [] }),
      }),
    openDb,
    openChannel: () => undefined,
    deleteDb: async (name) => void deleted.push(name),
    rescueOf: () => rescue,
    fetchEditions: async () => [],
    now: () => 1,
    newId: () => 'the-folder',
    alone: () => (work) => work(),
    later: () => () => undefined,
  });
  await places.start();
  await places.openFolder(directory(files));
  const shown = places.snapshot();
  if (shown.at !== 'folder') throw new Error('the folder is not open');
  for (let turn = 0; turn < 100 && shown.store.snapshot().load.state !== 'ready'; turn += 1) await new Promise((resolve) => setTimeout(resolve, 5));
  return { places, folders, store: shown.store, dbs, deleted, left };
}

test('a folder that has everything is closed and forgotten', async () => {
  const files = new Map([[PATH, 'theirs']]);
  const { places, store, deleted } = await openPlaces(files);
  store.write(PATH, 'mine', 'Type');
  await places.closeFolder();
  expect(files.get(PATH)).toBe('mine');
  expect(places.snapshot().at).toBe('browser');
  expect(deleted).toEqual(['ohmward-desk-folder-the-folder']);
});

test('what is typed while a folder is being closed is in the folder, or kept for when it is opened again', async () => {
  const files = new Map([[PATH, 'theirs']]);
  const { places, folders, store, deleted, left } = await openPlaces(files);
  const forget = folders.kept.delete.bind(folders.kept);
  folders.kept.delete = ((key: string) => {
    store.write(PATH, 'typed late', 'Type');
    return forget(key as 'open');
  }) as typeof folders.kept.delete;
  await places.closeFolder();
  expect(places.snapshot().at).toBe('browser');
  const isKept = deleted.length === 0 || left.some(({ row }) => row.text === 'typed late');
  expect(files.get(PATH) === 'typed late' || isKept).toBe(true);
});

test('a window that closes leaves what neither the folder’s store nor the browser’s has saved', async () => {
  const { places, store, left } = await openPlaces(new Map([[PATH, 'theirs']]));
  store.write(PATH, 'on its way', 'Type');
  places.leave();
  expect(left.map(({ row }) => row.text)).toEqual(['on its way']);
  await places.closeFolder();
  left.splice(0);
  const browser = places.snapshot();
  if (browser.at !== 'browser') throw new Error('not in the browser');
  browser.store.write(PATH, 'in the browser', 'Type');
  await places.openFolder(directory(new Map()));
  browser.store.write(PATH, 'in the browser, typed on', 'Type');
  places.leave();
  expect(left.map(({ row }) => row.text)).toContain('in the browser, typed on');
});
