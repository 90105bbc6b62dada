import Dexie, { type EntityTable, type Table } from 'dexie';
import type { EditionEntry } from '../data/fetch-sources.ts';
import type { StoredFile } from './desk-file.ts';

/** What is kept besides files: under `editions` the list of published editions that was fetched last. */
type Kept = { readonly key: 'editions'; readonly editions: readonly EditionEntry[] };

/** The desk's storage in this browser. A write is on the disk before it is reported as done. */
export type DeskDb = Dexie & { readonly files: Table<StoredFile, string>; readonly kept: EntityTable<Kept, 'key'> };

export function openDeskDb(name = 'ohmward-desk'): DeskDb {
  const db = new Dexie(name, { chromeTransactionDurability: 'strict' });
  db.version(1).stores({ files: 'path', kept: 'key' });
  return db as DeskDb;
}
