import { failure, type Result, success } from '../../../engine/result.ts';
import type { ConfirmationEntry, ConfirmedFaults, ConfirmRequest } from '../../sync/wire/review-wire.ts';
import type { Caller } from '../roles/caller.ts';
import { writeAudit } from './audit-store.ts';
import type { ConfirmationRow } from './hub-tables.ts';
import { type HubStore, inTransaction } from './open-store.ts';

/** Entries of one walk at most: nobody changes their mind as often. */
const MOST_ENTRIES = 200;

const entryOf = ({ walk, at, person, held, bench, fault, note, name }: ConfirmationRow & { readonly name: string }): ConfirmationEntry => ({
  walk,
  at,
  person,
  personName: name,
  ...(held !== null && { held: held !== 0 }),
  ...(bench !== null && { bench }),
  ...(fault !== null && { fault }),
  ...(note !== null && { note }),
});

/** Adds what was learnt of a walk's finding. From now on this holds; what was said before stays on the list. */
export function confirm(
  store: HubStore,
  caller: Caller,
  walk: string,
  { held, bench, fault, note }: ConfirmRequest,
  now: string,
): Promise<Result<ConfirmationEntry, 'not-there' | 'too-many-entries'>> {
  return inTransaction(store, async (tx) => {
    let query = tx.selectFrom('walk').select('id').where('id', '=', walk);
    if (store.dialect === 'postgres') query = query.forUpdate();
    if (!(await query.executeTakeFirst())) return failure('not-there');
    const newest = await tx
      .selectFrom('confirmation')
      .select('number')
      .where('walk', '=', walk)
      .orderBy('number', 'desc')
      .limit(1)
      .executeTakeFirst();
    const number = (newest?.number ?? 0) + 1;
    if (number > MOST_ENTRIES) return failure('too-many-entries');
    // Where nothing is known any more, no fault is either; and a fault's name says nothing without its bench.
    const known = held !== undefined && bench !== undefined && fault !== undefined;
    const row: ConfirmationRow = {
      walk,
      number,
      at: now,
      person: caller.person,
      held: held === undefined ? null : held ? 1 : 0,
      bench: known ? bench : null,
      fault: known ? fault : null,
      note: note === undefined || note === '' ? null : note,
    };
    await tx.insertInto('confirmation').values(row).execute();
    await tx.updateTable('walk').set({ held: row.held, held_bench: row.bench, held_fault: row.fault, touched: 1 }).where('id', '=', walk).execute();
    await writeAudit(tx, now, caller, 'confirmed', walk, { number, ...(held !== undefined && { held }), ...(known && { bench, fault }) });
    return success(entryOf({ ...row, name: caller.name }));
  });
}

/** Everything that was said of a walk's finding, the newest first; undefined where there is no such walk. */
export async function confirmationsOf({ db }: HubStore, walk: string): Promise<readonly ConfirmationEntry[] | undefined> {
  const rows = await db
    .selectFrom('confirmation')
    .innerJoin('person', 'person.id', 'confirmation.person')
    .selectAll('confirmation')
    .select('person.name')
    .where('walk', '=', walk)
    .orderBy('number', 'desc')
    .execute();
  if (rows.length > 0) return rows.map(entryOf);
  return (await db.selectFrom('walk').select('id').where('id', '=', walk).executeTakeFirst()) ? [] : undefined;
}

/** How often each fault of each bench turned out to be the one, whatever the tree of the call; by the newest word on each walk. Drills are left out. */
export async function confirmedFaults({ db }: HubStore): Promise<ConfirmedFaults['faults']> {
  const rows = await db
    .selectFrom('walk')
    .select(({ fn }) => ['held_bench', 'held_fault', fn.countAll<number>().as('times')])
    .where('drill', '=', 0)
    .where('held_fault', 'is not', null)
    .groupBy(['held_bench', 'held_fault'])
    .execute();
  return rows
    .map(({ held_bench, held_fault, times }) => ({ bench: held_bench ?? '', fault: held_fault ?? '', times: Number(times) }))
    .sort((a, b) => b.times - a.times || (`${a.bench} ${a.fault}` < `${b.bench} ${b.fault}` ? -1 : 1));
}
