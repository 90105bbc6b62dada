import { isDeepStrictEqual } from 'node:util';
import { sql } from 'kysely';
import { failure, type Result, success } from '../../../engine/result.ts';
import { type DrillTask, drillTaskSchema } from '../../../engine/review/index.ts';
import type { DrillRuns, GivenDrill } from '../../sync/wire/drill-wire.ts';
import { type Caller, seesAllWalks } from '../roles/caller.ts';
import { newId } from '../roles/secrets.ts';
import { writeAudit } from './audit-store.ts';
import { type CheckedEdition, putEdition } from './edition-store.ts';
import type { DrillRow } from './hub-tables.ts';
import { type HubDb, type HubStore, type HubTx, inTransaction } from './open-store.ts';

/** Runs of one drill that one person may send: one who does it every day for a year. */
const MOST_RUNS = 400;
const MOST_DRILLS = 1_000;
const RUNS_SHOWN = 500;

type Named = DrillRow & { readonly name: string };

const drillOf = ({ task, person, name, at, stopped }: Named, people: readonly string[]): GivenDrill => ({
  task: drillTaskSchema.parse(JSON.parse(task)),
  by: person,
  byName: name,
  at,
  people: [...people],
  ...(stopped !== null && { stopped }),
});

const drills = (db: HubDb | HubTx) =>
  db.selectFrom('drill').innerJoin('person', 'person.id', 'drill.person').selectAll('drill').select('person.name as name');

const isFor = (person: string) =>
  sql<boolean>`(drill.everyone = 1 or exists (select 1 from drill_person where drill_person.drill = drill.id and drill_person.person = ${person}))`;

/** Gives a drill to some, or with nobody named to the whole crew. Its edition is kept as long as the drill is. */
export function giveDrill(
  store: HubStore,
  caller: Caller,
  task: Omit<DrillTask, 'id'>,
  edition: CheckedEdition,
  people: readonly string[],
  now: string,
): Promise<Result<GivenDrill, 'person-unknown'>> {
  const wanted = [...new Set(people)].sort();
  return inTransaction(store, async (tx) => {
    if (wanted.length > 0) {
      const there = await tx.selectFrom('person').select('id').where('id', 'in', wanted).execute();
      if (there.length < wanted.length) return failure('person-unknown');
    }
    await putEdition(tx, edition, now);
    const whole: DrillTask = { ...task, id: newId('drill') };
    const row: DrillRow = {
      id: whole.id,
      edition: whole.edition,
      task: JSON.stringify(whole),
      person: caller.person,
      at: now,
      everyone: wanted.length === 0 ? 1 : 0,
      stopped: null,
    };
    await tx.insertInto('drill').values(row).execute();
    if (wanted.length > 0)
      await tx
        .insertInto('drill_person')
        .values(wanted.map((person) => ({ drill: whole.id, person })))
        .execute();
    await writeAudit(tx, now, caller, 'drill-given', whole.id, { tree: whole.tree, order: whole.order, people: wanted });
    return success(drillOf({ ...row, name: caller.name }, wanted));
  });
}

/** Drills, the newest first: all of them for who reviews, those that wait for a tech for the tech. */
export async function listDrills({ db }: HubStore, caller: Caller): Promise<readonly GivenDrill[]> {
  let query = drills(db).orderBy('drill.at', 'desc').orderBy('drill.id', 'desc').limit(MOST_DRILLS);
  if (!seesAllWalks(caller)) query = query.where('drill.stopped', 'is', null).where(isFor(caller.person));
  const rows = await query.execute();
  const ids = rows.filter(({ everyone }) => everyone === 0).map(({ id }) => id);
  const named = ids.length === 0 ? [] : await db.selectFrom('drill_person').selectAll().where('drill', 'in', ids).orderBy('person').execute();
  const people = new Map<string, string[]>();
  for (const { drill, person } of named) people.set(drill, [...(people.get(drill) ?? []), person]);
  // A tech is not told who else has it.
  return rows.map((row) => drillOf(row, seesAllWalks(caller) || row.everyone === 1 ? (people.get(row.id) ?? []) : [caller.person]));
}

export function stopDrill(store: HubStore, caller: Caller, id: string, now: string): Promise<Result<void, 'not-there'>> {
  return inTransaction(store, async (tx) => {
    const stopped = await tx.updateTable('drill').set({ stopped: now }).where('id', '=', id).where('stopped', 'is', null).executeTakeFirst();
    if (stopped.numUpdatedRows === 1n) await writeAudit(tx, now, caller, 'drill-stopped', id);
    else if (!(await tx.selectFrom('drill').select('id').where('id', '=', id).executeTakeFirst())) return failure('not-there');
    return success(undefined);
  });
}

/** Keeps a drill as the caller did it. The same again changes nothing. One that was stopped meanwhile is taken: it was done. */
export function putRun(
  store: HubStore,
  caller: Caller,
  at: { readonly drill: string; readonly run: string },
  run: Readonly<Record<string, unknown>>,
  now: string,
): Promise<Result<void, 'not-there' | 'run-differs' | 'too-many-entries'>> {
  return inTransaction(store, async (tx) => {
    let given = tx.selectFrom('drill').select('id').where('id', '=', at.drill);
    if (!seesAllWalks(caller)) given = given.where(isFor(caller.person));
    if (!(await given.executeTakeFirst())) return failure('not-there');
    const own = tx.selectFrom('drill_run').where('drill', '=', at.drill).where('person', '=', caller.person);
    const there = await own.select('text').where('id', '=', at.run).executeTakeFirst();
    if (there) return isDeepStrictEqual(JSON.parse(there.text), run) ? success(undefined) : failure('run-differs');
    const { n } = await own.select(({ fn }) => fn.countAll<number>().as('n')).executeTakeFirstOrThrow();
    if (Number(n) >= MOST_RUNS) return failure('too-many-entries');
    const put = await tx
      .insertInto('drill_run')
      .values({ drill: at.drill, person: caller.person, id: at.run, device: caller.device, arrived: now, text: JSON.stringify(run) })
      .onConflict((c) => c.columns(['drill', 'person', 'id']).doNothing())
      .executeTakeFirst();
    // Sent twice at once: the other one is there now, and is compared with.
    if (put.numInsertedOrUpdatedRows !== 1n) {
      const first = await own.select('text').where('id', '=', at.run).executeTakeFirst();
      if (!first || !isDeepStrictEqual(JSON.parse(first.text), run)) return failure('run-differs');
    }
    return success(undefined);
  });
}

/** How a drill was done, the last that arrived first: by everyone for who reviews, by themselves for a tech. Undefined where they have no such drill. */
export async function runsOf({ db }: HubStore, caller: Caller, drill: string): Promise<DrillRuns['runs'] | undefined> {
  let given = db.selectFrom('drill').select('id').where('id', '=', drill);
  if (!seesAllWalks(caller)) given = given.where(isFor(caller.person));
  if (!(await given.executeTakeFirst())) return undefined;
  let query = db
    .selectFrom('drill_run')
    .innerJoin('person', 'person.id', 'drill_run.person')
    .selectAll('drill_run')
    .select('person.name as name')
    .where('drill_run.drill', '=', drill)
    .orderBy('drill_run.arrived', 'desc')
    .orderBy('drill_run.id')
    .limit(RUNS_SHOWN);
  if (!seesAllWalks(caller)) query = query.where('drill_run.person', '=', caller.person);
  return (await query.execute()).map(({ person, name, arrived, text }) => ({
    drill,
    run: JSON.parse(text) as Record<string, unknown>,
    person,
    personName: name,
    arrived,
  }));
}
