import { type Kysely, sql } from 'kysely';

export type Dialect = 'sqlite' | 'postgres';

/** A migration of either database. Migrations only go forward; what one has written stays readable by the next. */
export type HubMigration = (db: Kysely<unknown>, dialect: Dialect) => Promise<void>;

/** The type of a column of bytes. */
export const bytesType = (dialect: Dialect) => (dialect === 'sqlite' ? sql`blob` : sql`bytea`);

/** A text that rows are ordered by: by its bytes, in both databases. */
export const keyType = (dialect: Dialect) => (dialect === 'sqlite' ? sql`text` : sql`text collate "C"`);

/** Refuses every change of a row, so that a list can only grow, whatever program writes to the database. */
export async function appendOnly(db: Kysely<unknown>, dialect: Dialect, table: string): Promise<void> {
  const name = sql.table(table);
  if (dialect === 'sqlite') {
    for (const change of ['update', 'delete'] as const)
      await sql`create trigger ${sql.ref(`${table}_no_${change}`)} before ${sql.raw(change)} on ${name} begin select raise(abort, 'append-only'); end`.execute(
        db,
      );
    return;
  }
  await sql`create function ${sql.ref(`${table}_append_only`)}() returns trigger language plpgsql as $$ begin raise exception 'append-only'; end $$`.execute(
    db,
  );
  await sql`create trigger ${sql.ref(`${table}_no_change`)} before update or delete on ${name} for each row execute function ${sql.ref(`${table}_append_only`)}()`.execute(
    db,
  );
}
