import { type SelectQueryBuilder, sql } from 'kysely';
import type { z } from 'zod';
import type { WalkChanges, WalkPage, WalkSummary, walkQuerySchema } from '../../sync/wire/walk-wire.ts';
import { type Caller, seesAllWalks } from '../roles/caller.ts';
import type { HubTables } from './hub-tables.ts';
import { type HubDb, type HubStore, holdCounter, inTransaction } from './open-store.ts';
import { utcText } from './utc-text.ts';
import { summaryOf, type WalkRead } from './walk-columns.ts';

export type WalkFilter = z.output<typeof walkQuerySchema>;

const COLUMNS = [
  'walk.id',
  'walk.edition',
  'walk.tree',
  'walk.person',
  'walk.by_name',
  'walk.site',
  'walk.drill',
  'walk.opened',
  'walk.last_at',
  'walk.arrived',
  'walk.length',
  'walk.head',
  'walk.lines',
  'walk.forks',
  'walk.top',
  'walk.hands',
  'walk.told_length',
  'walk.shrunk',
  'walk.closed',
  'walk.summed',
  'walk.phase',
  'walk.finding',
  'walk.outcome',
  'walk.replay_problem',
  'walk.minutes',
  'walk.held',
  'walk.held_bench',
  'walk.held_fault',
  'walk.change',
] as const;

const reads = (db: HubDb) =>
  db
    .selectFrom('walk')
    .innerJoin('person', 'person.id', 'walk.person')
    .leftJoin('edition', 'edition.hash', 'walk.edition')
    .select([...COLUMNS, 'person.name as person_name', 'edition.title']);

type Joined = HubTables & { edition: HubTables['edition'] | null };

// A page goes on after its last walk by the time it was opened and its id: new calls at the top do not move what comes next.
const SEPARATOR = '~';

const cursorOf = (row: WalkRead): string => Buffer.from(`${row.opened}${SEPARATOR}${row.id}`, 'utf8').toString('base64url');

/** Undefined where the text is no cursor of this hub. */
export function readCursor(text: string): { readonly opened: string; readonly id: string } | undefined {
  const [opened, ...id] = Buffer.from(text, 'base64url').toString('utf8').split(SEPARATOR);
  if (opened === undefined || id.length === 0 || !/^[\dT:.Z-]*$/.test(opened)) return undefined;
  return /\p{Cc}/u.test(id.join('')) ? undefined : { opened, id: id.join(SEPARATOR) };
}

/** Walks that the caller may see, the call opened last first; those whose opening has not arrived come at the end. */
export async function listWalks({ db }: HubStore, caller: Caller, filter: WalkFilter): Promise<WalkPage> {
  let query = reads(db) as unknown as SelectQueryBuilder<Joined, 'walk' | 'person' | 'edition', WalkRead>;
  if (!seesAllWalks(caller)) query = query.where('walk.person', '=', caller.person);
  if (filter.person !== undefined) query = query.where('walk.person', '=', filter.person);
  if (filter.tree !== undefined) query = query.where('walk.tree', '=', filter.tree);
  if (filter.edition !== undefined) query = query.where('walk.edition', '=', filter.edition);
  if (filter.outcome !== undefined) query = query.where('walk.outcome', '=', filter.outcome);
  if (filter.closed !== undefined) query = query.where('walk.closed', '=', filter.closed === 'yes' ? 1 : 0);
  if (filter.drill !== undefined) query = query.where('walk.drill', '=', filter.drill === 'yes' ? 1 : 0);
  if (filter.from !== undefined) query = query.where('walk.opened', '>=', utcText(filter.from));
  if (filter.to !== undefined) query = query.where('walk.opened', '<', utcText(filter.to));
  if (filter.confirmed === 'open') query = query.where('walk.held', 'is', null).where('walk.closed', '=', 1).where('walk.finding', 'is not', null);
  else if (filter.confirmed !== undefined) query = query.where('walk.held', '=', filter.confirmed === 'yes' ? 1 : 0);
  if (filter.finding !== undefined) {
    const [tree = '', step = ''] = filter.finding.split('/');
    query = query.where('walk.finding_tree', '=', tree).where('walk.finding_step', '=', step);
  }
  if (filter.flagged !== undefined) {
    const odd = sql<boolean>`(walk.tree is null or walk.forks > 0 or walk.top >= walk.length or walk.told_length > walk.length or walk.shrunk <> 0 or walk.hands > 1 or walk.replay_problem is not null)`;
    query = filter.flagged === 'yes' ? query.where(odd) : query.where(sql<boolean>`not ${odd}`);
  }
  const cursor = filter.after === undefined ? undefined : readCursor(filter.after);
  if (cursor) query = query.where(sql<boolean>`(walk.opened, walk.id) < (${cursor.opened}, ${cursor.id})`);
  const rows = await query
    .orderBy('walk.opened', 'desc')
    .orderBy('walk.id', 'desc')
    .limit(filter.most + 1)
    .execute();
  const page = rows.slice(0, filter.most);
  const last = page.at(-1);
  return { walks: page.map(summaryOf), ...(rows.length > filter.most && last && { next: cursorOf(last) }) };
}

/** One walk that the caller may see. */
export async function walkSummary({ db }: HubStore, caller: Caller, id: string): Promise<(WalkSummary & { readonly head: string }) | undefined> {
  const row = await reads(db).where('walk.id', '=', id).executeTakeFirst();
  if (!row || !(seesAllWalks(caller) || row.person === caller.person)) return undefined;
  return { ...summaryOf(row), head: row.head };
}

const NUMBERED_AT_ONCE = 1_000;

/**
 * Gives every changed walk its place in the stream. It is done here and not when a walk changes: a number is then given only to what is
 * committed, so that no change can come to light behind a cursor that has passed it, however many processes write.
 */
async function numberChanges(store: HubStore): Promise<void> {
  const waiting = await store.db.selectFrom('walk').select('id').where('touched', '=', 1).limit(1).executeTakeFirst();
  if (!waiting) return;
  await inTransaction(store, async (tx) => {
    let n = await holdCounter(tx, 'changes');
    let query = tx.selectFrom('walk').select('id').where('touched', '=', 1).orderBy('id').limit(NUMBERED_AT_ONCE);
    // A walk that is being written to has its change numbered the next time.
    if (store.dialect === 'postgres') query = query.forUpdate().skipLocked();
    for (const { id } of await query.execute()) {
      n += 1;
      await tx.updateTable('walk').set({ touched: 0, change: n }).where('id', '=', id).execute();
    }
    await tx.updateTable('counter').set({ n }).where('name', '=', 'changes').execute();
  });
}

/** Walks changed after a cursor, each once, where it changed last. */
export async function walkChanges(store: HubStore, caller: Caller, after: number, most: number): Promise<WalkChanges> {
  await numberChanges(store);
  let query = reads(store.db)
    .where('walk.change', '>', after)
    .orderBy('walk.change')
    .limit(most + 1);
  if (!seesAllWalks(caller)) query = query.where('walk.person', '=', caller.person);
  const rows = await query.execute();
  const page = rows.slice(0, most);
  return { walks: page.map(summaryOf), cursor: page.at(-1)?.change ?? after, more: rows.length > most };
}
