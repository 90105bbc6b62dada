import { setTimeout } from 'node:timers/promises';
import { minutesBin, replayedLog, type StepStay, staysOf, walkMinutes } from '../../../engine/review/index.ts';
import { viewOf, type WalkableEdition } from '../../../engine/walk/index.ts';
import type { WalkRow, WalkStepRow } from './hub-tables.ts';
import { type HubStore, inTransaction } from './open-store.ts';
import type { WalkableEditions } from './walkable-editions.ts';

/** Lines of the main run of a walk in order, as they were sent. */
export async function mainRun({ db }: HubStore, walk: string, head: string, length: number, from = 0, most = length): Promise<readonly unknown[]> {
  const rows = await db
    .selectFrom('walk_line')
    .select(['seq', 'hash', 'before', 'forked', 'text'])
    .where('walk', '=', walk)
    .where('seq', '<', length)
    .orderBy('seq')
    .execute();
  // From the end back: each line names the one before it, and the head is known.
  const run: string[] = [];
  const byHash = new Map(rows.map((row) => [`${row.seq} ${row.hash}`, row]));
  let hash = head;
  for (let seq = length - 1; seq >= 0; seq -= 1) {
    const row = byHash.get(`${seq} ${hash}`);
    if (!row) return [];
    run.push(row.text);
    hash = row.before;
  }
  return run
    .reverse()
    .slice(from, from + most)
    .map((text): unknown => JSON.parse(text));
}

/** Lines that are not on the main run: those of forks, and those past a gap. */
export async function asideLines({ db }: HubStore, walk: string, head: string, length: number): Promise<readonly unknown[]> {
  const rows = await db
    .selectFrom('walk_line')
    .select(['seq', 'hash', 'before', 'text'])
    .where('walk', '=', walk)
    .orderBy('seq')
    .orderBy('arrived')
    .execute();
  const main = new Set<string>();
  const byHash = new Map(rows.map((row) => [`${row.seq} ${row.hash}`, row]));
  let hash = head;
  for (let seq = length - 1; seq >= 0; seq -= 1) {
    const key = `${seq} ${hash}`;
    const row = byHash.get(key);
    if (!row) break;
    main.add(key);
    hash = row.before;
  }
  return rows.filter((row) => !main.has(`${row.seq} ${row.hash}`)).map(({ text }): unknown => JSON.parse(text));
}

type Sum = Pick<WalkRow, 'phase' | 'finding' | 'outcome' | 'replay_problem' | 'minutes' | 'minutes_bin' | 'finding_tree' | 'finding_step'>;

/** Before a walk is summed up, and where it cannot be. */
export const NOT_SUMMED_UP: Sum = {
  phase: null,
  finding: null,
  outcome: null,
  replay_problem: null,
  minutes: null,
  minutes_bin: null,
  finding_tree: null,
  finding_step: null,
};

type SummedUp = { readonly sum: Sum; readonly stays: readonly StepStay[] };

/** What a log comes to on its edition, as far as it can be trusted. */
function summedUp(edition: WalkableEdition | undefined, lines: readonly unknown[]): SummedUp {
  try {
    if (!edition) throw new Error('The edition cannot be walked.');
    const replayed = replayedLog(edition, lines);
    const view = viewOf(replayed.end);
    const problem = replayed.problems[0];
    const minutes = view.phase === 'closed' ? walkMinutes(replayed) : null;
    const stays = staysOf(edition, replayed);
    const finding = view.finding ? stays.findLast(({ kind }) => kind === 'finding') : undefined;
    return {
      sum: {
        phase: view.phase,
        finding: view.finding?.title ?? null,
        outcome: view.outcome ?? null,
        replay_problem: problem ? JSON.stringify({ code: problem.code, line: problem.line }) : null,
        minutes,
        minutes_bin: minutes === null ? null : minutesBin(minutes),
        finding_tree: finding?.tree ?? null,
        finding_step: finding?.step ?? null,
      },
      stays,
    };
  } catch {
    return { sum: { ...NOT_SUMMED_UP, replay_problem: JSON.stringify({ code: 'not-replayable', line: 0 }) }, stays: [] };
  }
}

const rowOf = (walk: string, stay: StepStay): WalkStepRow => ({
  walk,
  place: stay.place,
  tree: stay.tree,
  step: stay.step,
  kind: stay.kind,
  way: stay.on ?? null,
  minutes: stay.minutes,
  bin: minutesBin(stay.minutes),
  could_not: stay.couldNot ? 1 : 0,
  too_close: stay.tooClose ? 1 : 0,
  accepted: stay.acceptedTooClose ? 1 : 0,
  jumped: stay.jumped ? 1 : 0,
  stepped_back: stay.steppedBack ? 1 : 0,
});

const STEPS_AT_ONCE = 500;

/** Replays a walk as far as it has arrived and keeps what lists and pictures show of it. Without its edition nothing is known, which is no fault of the log. */
export async function sumUpWalk(store: HubStore, editions: WalkableEditions, walk: string): Promise<void> {
  const row = await store.db.selectFrom('walk').select(['edition', 'tree', 'length', 'head', 'summed']).where('id', '=', walk).executeTakeFirst();
  if (!row || row.length === 0) return;
  const edition = await editions.get(row.edition);
  // Not here yet: it is summed up when it is.
  if (!edition && row.tree === null) return;
  const { sum, stays } = summedUp(edition, await mainRun(store, walk, row.head, row.length));
  const rows = stays.map((stay) => rowOf(walk, stay));
  await inTransaction(store, async (tx) => {
    const put = await tx
      .updateTable('walk')
      .set({ ...sum, summed: row.length, touched: 1 })
      .where('id', '=', walk)
      // What has arrived in the meantime is summed up with it, later.
      .where('head', '=', row.head)
      .executeTakeFirst();
    if (put.numUpdatedRows !== 1n) return;
    await tx.deleteFrom('walk_step').where('walk', '=', walk).execute();
    for (let at = 0; at < rows.length; at += STEPS_AT_ONCE)
      await tx
        .insertInto('walk_step')
        .values(rows.slice(at, at + STEPS_AT_ONCE))
        .execute();
  });
}

/** Sums up closed walks that are due, at most `most`: those whose upload was cut short before it came to that. Resolves to how many there were. */
export async function sumUpDue(store: HubStore, editions: WalkableEditions, most: number): Promise<number> {
  const due = await store.db
    .selectFrom('walk')
    .select('id')
    .where('closed', '=', 1)
    .whereRef('summed', '<', 'length')
    .where('tree', 'is not', null)
    .limit(most)
    .execute();
  for (const { id } of due) await sumUpWalk(store, editions, id);
  return due.length;
}

/** Sums up all that is due, a few at a time, so that the hub answers in between. After a new version of the hub that is every walk it has. */
export async function sumUpAll(store: HubStore, editions: WalkableEditions, stopped: () => boolean): Promise<void> {
  while (!stopped() && (await sumUpDue(store, editions, 10)) > 0) await setTimeout(20);
}
