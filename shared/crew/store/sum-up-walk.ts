import { replayLog, viewOf } from '../../../engine/walk/index.ts';
import type { HubStore } from './open-store.ts';
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

type Sum = {
  readonly phase: string | null;
  readonly finding: string | null;
  readonly outcome: string | null;
  readonly replay_problem: string | null;
};

const UNKNOWN: Sum = { phase: null, finding: null, outcome: null, replay_problem: null };

/** Replays a walk as far as it has arrived and keeps what the list shows of it. Without its edition nothing is known, which is no fault of the log. */
export async function sumUpWalk(store: HubStore, editions: WalkableEditions, walk: string): Promise<void> {
  const row = await store.db.selectFrom('walk').select(['edition', 'tree', 'length', 'head', 'summed']).where('id', '=', walk).executeTakeFirst();
  if (!row || row.length === 0) return;
  const edition = await editions.get(row.edition);
  // Not here yet: it is summed up when it is.
  if (!edition && row.tree === null) return;
  const lines = await mainRun(store, walk, row.head, row.length);
  let sum: Sum = UNKNOWN;
  try {
    if (!edition) throw new Error('The edition cannot be walked.');
    const replayed = replayLog(edition, lines);
    const view = viewOf(replayed.walk);
    const problem = replayed.problems[0];
    sum = {
      phase: view.phase,
      finding: view.finding?.title ?? null,
      outcome: view.outcome ?? null,
      replay_problem: problem ? JSON.stringify({ code: problem.code, line: problem.line }) : null,
    };
  } catch {
    sum = { ...UNKNOWN, replay_problem: JSON.stringify({ code: 'not-replayable', line: 0 }) };
  }
  await store.db
    .updateTable('walk')
    .set({ ...sum, summed: row.length, touched: 1 })
    .where('id', '=', walk)
    // What has arrived in the meantime is summed up with it, later.
    .where('head', '=', row.head)
    .execute();
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
