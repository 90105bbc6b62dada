import { closeSync, copyFileSync, existsSync, fsyncSync, mkdtempSync, openSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import type Database from 'better-sqlite3';
import { failure, type Result, success } from '../../../engine/result.ts';
import { writeAudit } from '../store/audit-store.ts';
import { type HubDb, type HubStore, inTransaction, openStore, sqliteDriver } from '../store/open-store.ts';
import { clearTables, copyTables, isEmpty } from './copy-tables.ts';

export type BackupProblem = { readonly code: 'file-exists' | 'no-file' | 'not-empty' } | { readonly code: 'not-a-backup'; readonly detail: string };

/** Puts what was written on the disk, the folder's entry with it. */
function settle(path: string): void {
  for (const one of [path, dirname(path)]) {
    const handle = openSync(one, 'r');
    fsyncSync(handle);
    closeSync(handle);
  }
}

/**
 * Writes everything that a hub has into one file, while the hub goes on working. The file is a SQLite database of the hub's own tables,
 * whichever database the hub uses, as it was at one moment. A file that is there is not written over.
 */
export async function backUp(store: HubStore, file: string, now: string): Promise<Result<{ readonly rows: number }, BackupProblem>> {
  const path = resolve(file);
  if (existsSync(path)) return failure({ code: 'file-exists' });
  await writeAudit(store.db, now, undefined, 'backed-up', basename(path));
  const folder = mkdtempSync(join(dirname(path), '.backup-'));
  try {
    const made = join(folder, 'hub.sqlite');
    const rows = store.sqlite ? await copySqlite(store.sqlite, made) : await exportAll(store, made);
    settle(made);
    renameSync(made, path);
    settle(path);
    return success({ rows });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function copySqlite(sqlite: Database.Database, file: string): Promise<number> {
  await sqlite.backup(file);
  const copy = new (sqliteDriver())(file);
  // One file alone, to be carried anywhere.
  copy.pragma('journal_mode = DELETE');
  const rows = Number(copy.prepare('select count(*) from walk_line').pluck().get());
  copy.close();
  return rows;
}

async function exportAll(store: HubStore, file: string): Promise<number> {
  const copy = await openStore({ sqlite: file });
  try {
    // One moment for all tables, whatever is written meanwhile.
    await store.db
      .transaction()
      .setIsolationLevel('repeatable read')
      .execute((from) => inTransaction(copy, (to) => copyTables(from as unknown as HubDb, to, 'sqlite')));
    copy.sqlite?.pragma('wal_checkpoint(TRUNCATE)');
    copy.sqlite?.pragma('journal_mode = DELETE');
    return Number(copy.sqlite?.prepare('select count(*) from walk_line').pluck().get() ?? 0);
  } finally {
    await copy.close();
  }
}

/**
 * Puts a backup into a hub, of either database and from any earlier schema. All of it or nothing. A hub that holds something is left as it
 * is, unless `replace` says that what it holds may go.
 */
export async function restore(
  store: HubStore,
  file: string,
  now: string,
  { replace = false } = {},
): Promise<Result<{ readonly rows: number }, BackupProblem>> {
  const path = resolve(file);
  if (!existsSync(path)) return failure({ code: 'no-file' });
  if (!replace && !(await isEmpty(store))) return failure({ code: 'not-empty' });
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-restore-'));
  try {
    // Worked on is a copy: bringing it to the newest schema must not change the backup.
    const copied = join(folder, 'hub.sqlite');
    copyFileSync(path, copied);
    const whole = wholeBackup(copied);
    if (!whole.ok) return whole;
    const backup = await openStore({ sqlite: copied });
    try {
      const rows = await inTransaction(store, async (tx) => {
        if (replace) await clearTables(tx, store.dialect);
        const copiedRows = await copyTables(backup.db, tx, store.dialect);
        await writeAudit(tx, now, undefined, 'restored', basename(path));
        return copiedRows;
      });
      return success({ rows });
    } finally {
      await backup.close();
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Whether a file is a whole database of a hub. */
function wholeBackup(file: string): Result<void, BackupProblem> {
  let sqlite: Database.Database | undefined;
  try {
    sqlite = new (sqliteDriver())(file, { readonly: true });
    const check = sqlite.pragma('integrity_check', { simple: true });
    if (check !== 'ok') return failure({ code: 'not-a-backup', detail: String(check).slice(0, 200) });
    const person = sqlite.prepare("select count(*) from sqlite_master where name in ('person', 'schema_version')").pluck().get();
    return person === 2 ? success(undefined) : failure({ code: 'not-a-backup', detail: 'it is no hub’s' });
  } catch (error) {
    return failure({ code: 'not-a-backup', detail: error instanceof Error ? error.message.slice(0, 200) : '' });
  } finally {
    sqlite?.close();
  }
}
