import { closeSync, mkdirSync, openSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type Database from 'better-sqlite3';
import { Kysely, PostgresDialect, SqliteAdapter, SqliteDialect, type Transaction } from 'kysely';
import pg from 'pg';
import type { HubTables } from './hub-tables.ts';
import type { Dialect } from './migrations/dialect-parts.ts';
import { migrate } from './migrations/migrate.ts';

export type HubDb = Kysely<HubTables>;
export type HubTx = Transaction<HubTables>;

/** The hub's database. The queries are the same for both; where one word of SQL differs, `dialect` says which. */
export type HubStore = {
  readonly db: HubDb;
  readonly dialect: Dialect;
  /** The open SQLite database, for its own backup; undefined with PostgreSQL. */
  readonly sqlite?: Database.Database;
  close(): Promise<void>;
};

/** SQLite's package is a compiled one, and cannot be loaded on this machine. Its message is for who starts the hub. */
export class NoSqlite extends Error {
  override readonly name = 'NoSqlite';
  readonly code = 'NO_SQLITE';

  constructor(cause: unknown) {
    const why = cause instanceof Error ? (cause.message.split('\n')[0] ?? '').slice(0, 200) : String(cause);
    super(
      `SQLite cannot be loaded on this machine (better-sqlite3: ${why}). Run \`npm install\` again with a connection, or keep the hub’s data in PostgreSQL with DATABASE_URL. Without a place for data everything but the hub works.`,
      { cause },
    );
  }
}

/**
 * SQLite itself. It is loaded only where it is used: on a machine where its package cannot be had everything but the hub has to work all the
 * same. Throws `NoSqlite`.
 */
export function sqliteDriver(): typeof Database {
  try {
    return createRequire(import.meta.url)('better-sqlite3') as typeof Database;
  } catch (error) {
    throw new NoSqlite(error);
  }
}

/** Where the data is: a SQLite file, or the address of a PostgreSQL database. */
export type StorePlace = { readonly sqlite: string } | { readonly postgres: string; readonly connections?: number };

/** The database file in a data folder. */
export const storeFile = (folder: string): string => join(folder, 'hub.sqlite');

/**
 * Opens SQLite so that what a transaction wrote is on the disk when it ends: WAL, and synchronous FULL, which syncs the WAL at every commit.
 * (SQLite's manual, "PRAGMA synchronous": with WAL, NORMAL may lose the last transactions at a power cut, FULL does not.)
 */
export function openSqlite(file: string): Database.Database {
  const Driver = sqliteDriver();
  if (file !== ':memory:') {
    mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
    // Only the hub's own user may read it; SQLite gives its other files the same mode.
    closeSync(openSync(file, 'a', 0o600));
  }
  const sqlite = opened(Driver, file);
  sqlite.pragma('journal_mode = WAL');
  sqlite.pragma('synchronous = FULL');
  sqlite.pragma('foreign_keys = ON');
  sqlite.pragma('trusted_schema = OFF');
  return sqlite;
}

/** The package loads its compiled half only when the first database is opened. */
function opened(Driver: typeof Database, file: string): Database.Database {
  try {
    return new Driver(file, { timeout: 10_000 });
  } catch (error) {
    if (error instanceof Driver.SqliteError) throw error;
    const code = codeOf(error);
    throw code === 'ERR_DLOPEN_FAILED' || code === 'MODULE_NOT_FOUND' || /bindings file/.test(String(error)) ? new NoSqlite(error) : error;
  }
}

/** SQLite takes changes of tables into a transaction, so that a hub that dies while it migrates starts again from where it was. */
class WholeMigrations extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

class HubSqlite extends SqliteDialect {
  override createAdapter(): SqliteAdapter {
    return new WholeMigrations();
  }
}

const INT8 = 20;

/** Numbers of the hub stay far below 2^53; as text they could not be compared. */
const types: pg.CustomTypesConfig = {
  getTypeParser: (id: number, format?: 'text' | 'binary') =>
    id === INT8 ? (text: string) => Number(text) : format === 'binary' ? pg.types.getTypeParser(id, 'binary') : pg.types.getTypeParser(id, 'text'),
} as pg.CustomTypesConfig;

/** Opens the database without touching its tables. */
export function connectStore(place: StorePlace): HubStore {
  if ('sqlite' in place) {
    const sqlite = openSqlite(place.sqlite);
    const db = new Kysely<HubTables>({ dialect: new HubSqlite({ database: sqlite }) });
    return { db, dialect: 'sqlite', sqlite, close: () => db.destroy() };
  }
  const pool = new pg.Pool({
    connectionString: place.postgres,
    max: place.connections ?? 10,
    types,
    connectionTimeoutMillis: 10_000,
    // A hub that dies mid-transaction must not hold its locks for ever.
    statement_timeout: 60_000,
    idle_in_transaction_session_timeout: 60_000,
  });
  // A connection that breaks while idle is replaced at the next query, which also tells what is wrong.
  pool.on('error', () => undefined);
  const db = new Kysely<HubTables>({ dialect: new PostgresDialect({ pool }) });
  return { db, dialect: 'postgres', close: () => db.destroy() };
}

/** Opens the database and brings it to the newest schema. */
export async function openStore(place: StorePlace): Promise<HubStore> {
  for (let tried = 0; ; tried += 1) {
    const store = connectStore(place);
    try {
      await migrate(store.db as Kysely<unknown>, store.dialect);
      return store;
    } catch (error) {
      await store.close().catch(() => undefined);
      // Another process is bringing the same file to the newest schema.
      if (tried >= 4 || !TRY_AGAIN.has(codeOf(error))) throw error;
      await new Promise((resolve) => setTimeout(resolve, 250));
    }
  }
}

const codeOf = (error: unknown): string => (typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '');

/** PostgreSQL gives a transaction up where two wait for each other, or read what the other wrote; SQLite where another program holds the file. */
const TRY_AGAIN = new Set(['40001', '40P01', 'SQLITE_BUSY', 'SQLITE_BUSY_SNAPSHOT']);

/** The database cannot be had now: it is stopped, restarting, full of connections, or locked. */
export const isStoreBusy = (error: unknown): boolean =>
  TRY_AGAIN.has(codeOf(error)) ||
  /^(08|53|57P)/.test(codeOf(error)) ||
  /^(ECONNREFUSED|ECONNRESET|EPIPE|ETIMEDOUT)$/.test(codeOf(error)) ||
  (error instanceof Error && /connection terminated|timeout exceeded when trying to connect|Connection terminated/i.test(error.message));

/** Does all of it or nothing. On the disk when it resolves. */
export async function inTransaction<T>({ db }: HubStore, work: (tx: HubTx) => Promise<T>): Promise<T> {
  for (let tried = 0; ; tried += 1) {
    try {
      return await db.transaction().execute(work);
    } catch (error) {
      if (tried >= 4 || !TRY_AGAIN.has(codeOf(error))) throw error;
    }
  }
}

/** Waits until no other transaction holds this counter, and holds it until the end of this one. */
export async function holdCounter(tx: HubTx, name: 'people' | 'publications' | 'changes'): Promise<number> {
  // An update locks the row in PostgreSQL and the file in SQLite.
  const row = await tx
    .updateTable('counter')
    .set((eb) => ({ n: eb('n', '+', 0) }))
    .where('name', '=', name)
    .returning('n')
    .executeTakeFirstOrThrow();
  return Number(row.n);
}
