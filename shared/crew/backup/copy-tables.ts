import { type Kysely, sql } from 'kysely';
import type { HubTables } from '../store/hub-tables.ts';
import type { HubStore, HubTx } from '../store/open-store.ts';

/** Every table with its key, those that others refer to first. */
const TABLES: readonly (readonly [keyof HubTables, readonly string[]])[] = [
  ['person', ['id']],
  ['device', ['id']],
  ['invitation', ['id']],
  ['audit', ['id']],
  ['counter', ['name']],
  ['edition', ['hash']],
  ['publication', ['tree', 'number']],
  ['withdrawal', ['hash']],
  ['walk', ['id']],
  ['walk_line', ['walk', 'seq', 'hash']],
  ['walk_hand', ['walk', 'person']],
  ['walk_step', ['walk', 'place']],
  ['confirmation', ['walk', 'number']],
  ['photo', ['hash']],
  ['walk_photo', ['walk', 'photo']],
  ['drill', ['id']],
  ['drill_person', ['drill', 'person']],
  ['drill_run', ['drill', 'person', 'id']],
];

/** Lists that refuse to lose a row, as long as nobody lets them go. */
const APPEND_ONLY = ['audit', 'confirmation'] as const;

type Row = Readonly<Record<string, unknown>>;
type AnyDb = Kysely<Record<string, Record<string, unknown>>>;

/** Rows read at a time. Photos and editions are large, lines are many. */
const AT_ONCE: Partial<Record<keyof HubTables, number>> = { photo: 4, edition: 4, drill_run: 50 };
const USUAL_AT_ONCE = 500;

/** Whether nobody and nothing is in a hub yet. */
export async function isEmpty({ db }: HubStore): Promise<boolean> {
  for (const table of ['person', 'walk', 'edition', 'audit'] as const)
    if (await db.selectFrom(table).select(sql`1`.as('one')).limit(1).executeTakeFirst()) return false;
  return true;
}

/** Takes everything out of a hub. The lists that refuse that are let go and made to refuse again. */
export async function clearTables(tx: HubTx, dialect: HubStore['dialect']): Promise<void> {
  const any = tx as unknown as AnyDb;
  for (const table of APPEND_ONLY) await letGo(tx, dialect, table);
  for (const [table] of [...TABLES].reverse()) await any.deleteFrom(table).execute();
  for (const table of APPEND_ONLY) await holdAgain(tx, dialect, table);
}

async function letGo(tx: HubTx, dialect: HubStore['dialect'], table: string): Promise<void> {
  if (dialect === 'postgres') await sql`alter table ${sql.table(table)} disable trigger ${sql.ref(`${table}_no_change`)}`.execute(tx);
  else await sql`drop trigger ${sql.ref(`${table}_no_delete`)}`.execute(tx);
}

async function holdAgain(tx: HubTx, dialect: HubStore['dialect'], table: string): Promise<void> {
  if (dialect === 'postgres') await sql`alter table ${sql.table(table)} enable trigger ${sql.ref(`${table}_no_change`)}`.execute(tx);
  else
    await sql`create trigger ${sql.ref(`${table}_no_delete`)} before delete on ${sql.table(table)} begin select raise(abort, 'append-only'); end`.execute(
      tx,
    );
}

/** Copies every row of one hub into another of the same schema, which has none. `told` hears how many rows are done. */
export async function copyTables(
  from: Kysely<HubTables>,
  to: HubTx,
  dialect: HubStore['dialect'],
  told: (rows: number) => void = () => undefined,
): Promise<number> {
  const source = from as unknown as AnyDb;
  const target = to as unknown as AnyDb;
  let rows = 0;
  // What a fresh hub is made with is in the backup too.
  await target.deleteFrom('counter').execute();
  for (const [table, key] of TABLES) {
    const most = AT_ONCE[table] ?? USUAL_AT_ONCE;
    for (let last: Row | undefined; ; ) {
      let query = source.selectFrom(table).selectAll().limit(most);
      for (const column of key) query = query.orderBy(column);
      if (last) query = query.where(after(key, last));
      const some = await query.execute();
      if (some.length > 0) await target.insertInto(table).values(some).execute();
      rows += some.length;
      told(rows);
      last = some.at(-1);
      if (some.length < most) break;
    }
  }
  // The next entry of the list goes on after the last that was copied.
  if (dialect === 'postgres')
    await sql`select setval(pg_get_serial_sequence('audit', 'id'), (select coalesce(max(id), 0) + 1 from audit), false)`.execute(to);
  return rows;
}

const after = (key: readonly string[], last: Row) =>
  sql<boolean>`(${sql.join(key.map((column) => sql.ref(column)))}) > (${sql.join(key.map((column) => sql`${last[column]}`))})`;
