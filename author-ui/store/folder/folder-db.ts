import Dexie, { type EntityTable } from 'dexie';
import type { FolderHandle } from './folder-files.ts';

/** A folder that was opened: its handle outlives the window, the permission to use it may not. */
export type KnownFolder = { readonly id: string; readonly name: string; readonly handle: FolderHandle };

type Kept = { readonly key: 'open'; readonly id: string };

/** Which folders this browser knows, and which of them the desk works in. */
export type FolderDb = Dexie & { readonly folders: EntityTable<KnownFolder, 'id'>; readonly kept: EntityTable<Kept, 'key'> };

export function openFolderDb(name = 'ohmward-folders'): FolderDb {
  const db = new Dexie(name, { chromeTransactionDurability: 'strict' });
  db.version(1).stores({ folders: 'id', kept: 'key' });
  return db as FolderDb;
}

/** The folder that the desk worked in last; undefined where it works in the browser. */
export async function openFolderOf(db: FolderDb): Promise<KnownFolder | undefined> {
  const open = await db.kept.get('open');
  return open && db.folders.get(open.id);
}

/** The known folder of a handle, under the id that it has or under a new one; it is the open one from now on. */
export async function keepFolder(db: FolderDb, handle: FolderHandle, newId: () => string): Promise<KnownFolder> {
  const known = await db.folders.toArray();
  const same = await Promise.all(known.map((one) => handle.isSameEntry(one.handle).catch(() => false)));
  const id = known[same.indexOf(true)]?.id ?? newId();
  const folder: KnownFolder = { id, name: handle.name === '' ? 'folder' : handle.name, handle };
  await db.transaction('rw', db.folders, db.kept, async () => {
    await db.folders.put(folder);
    await db.kept.put({ key: 'open', id });
  });
  return folder;
}
