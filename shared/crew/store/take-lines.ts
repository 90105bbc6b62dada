import { sql } from 'kysely';
import { NO_LINE_BEFORE, type WalkLine } from '../../../engine/walk/index.ts';
import type { LineOutcome, Standing, Tail } from '../../sync/wire/walk-wire.ts';
import type { Caller } from '../roles/caller.ts';
import { writeAudit } from './audit-store.ts';
import { inGroup } from './group-commit.ts';
import type { WalkLineRow, WalkRow } from './hub-tables.ts';
import type { HubStore, HubTx } from './open-store.ts';
import { readLine } from './read-line.ts';
import { NOT_SUMMED_UP } from './sum-up-walk.ts';
import { utcText } from './utc-text.ts';
import { flagsOf } from './walk-columns.ts';
import { type Placed, WalkSpine } from './walk-spine.ts';

export type Taken = {
  readonly outcomes: readonly LineOutcome[];
  readonly standings: readonly Standing[];
  /** Walks whose log is whole and closed with this upload: they can be replayed and summed up. */
  readonly closed: readonly string[];
};

/** Lines off the main run that a walk may have: enough for a log carried on in two places, too few to fill a disk with. */
const MOST_FORKS = 2_000;

/** PostgreSQL takes no NUL in a text, and neither database half a character. The line itself is kept as it is. */
const plain = (text: string | undefined): string | null => text?.replace(/[\p{Cc}\p{Cs}]/gu, '\ufffd') ?? null;

type Read = { readonly index: number; readonly line: WalkLine; readonly text: string };

/** The lines of an upload that can be taken, by walk and in order of the walks' ids, so that two uploads never wait for each other. */
function byWalk(lines: readonly unknown[], outcomes: LineOutcome[]): Map<string, Read[]> {
  const walks = new Map<string, Read[]>();
  for (const [index, input] of lines.entries()) {
    const read = readLine(input);
    if (!read.ok) {
      outcomes[index] = { outcome: 'refused', ...read.problem };
      continue;
    }
    const list = walks.get(read.value.walk) ?? [];
    list.push({ index, line: read.value, text: JSON.stringify(read.value) });
    walks.set(read.value.walk, list);
  }
  return new Map([...walks].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/**
 * Takes log lines, in any order and any number of times. A line is kept once, whatever comes with it; one that contradicts what is there is
 * kept beside it and marks its walk. On the disk when it resolves.
 */
export async function takeLines(store: HubStore, caller: Caller, lines: readonly unknown[], tails: readonly Tail[], now: string): Promise<Taken> {
  const early: LineOutcome[] = new Array(lines.length);
  const walks = byWalk(lines, early);
  const told = new Map(tails.map((tail) => [tail.walk, tail]));
  if (walks.size === 0 && told.size === 0) return { outcomes: early, standings: [], closed: [] };
  return inGroup(store, async (tx) => {
    // A transaction that is tried again begins with nothing decided.
    const outcomes = [...early];
    const rows = await holdWalks(tx, store, walks, told, caller, now);
    const spines = await loadSpines(tx, rows, walks);
    const fresh: WalkLineRow[] = [];
    const closed: string[] = [];
    for (const [id, reads] of walks) {
      const row = rows.get(id);
      const spine = spines.get(id);
      if (!row || !spine) continue;
      const forksBefore = row.forks;
      for (const { index, line, text } of reads) outcomes[index] = placed(spine, line, text, row, caller, now, fresh);
      if (row.forks > forksBefore) await writeAudit(tx, now, caller, 'fork-kept', id, { lines: row.forks - forksBefore });
    }
    await insertLines(tx, fresh);
    await countHands(tx, rows, walks, caller);
    await nameTrees(tx, rows);
    for (const [id, row] of rows) {
      const spine = spines.get(id);
      const wasLength = row.length;
      if (spine) spine.advance(row);
      tell(row, told.get(id));
      await tx
        .updateTable('walk')
        .set({ ...changed(row), touched: 1 })
        .where('id', '=', id)
        .execute();
      if (row.closed !== 0 && row.length > wasLength) closed.push(id);
    }
    const standings = [...rows.values()].map(
      (row): Standing => ({ walk: row.id, length: row.length, head: row.head, lines: row.lines, flags: flagsOf(row) }),
    );
    return { outcomes, standings, closed };
  });
}

/** Makes the walks that are new, and holds all of them until the transaction ends. Tails alone make no walk. */
async function holdWalks(
  tx: HubTx,
  { dialect }: HubStore,
  walks: ReadonlyMap<string, readonly Read[]>,
  told: ReadonlyMap<string, Tail>,
  caller: Caller,
  now: string,
): Promise<Map<string, WalkRow>> {
  const made = [...walks].map(([id, [first]]) => ({
    id,
    edition: first?.line.edition ?? '',
    person: caller.person,
    last_at: first ? utcText(first.line.time) : now,
    arrived: now,
    head: NO_LINE_BEFORE,
    change: 0,
    ...NEW_WALK,
  }));
  if (made.length > 0)
    await tx
      .insertInto('walk')
      .values(made)
      .onConflict((c) => c.column('id').doNothing())
      .execute();
  // Of a walk that no line is sent of, only its own tech's devices can tell how long it is.
  const ids = [...walks.keys()];
  const others = [...told.keys()].filter((id) => !walks.has(id));
  let query = tx
    .selectFrom('walk')
    .selectAll()
    .where((eb) =>
      eb.or([
        ...(ids.length > 0 ? [eb('id', 'in', ids)] : []),
        ...(others.length > 0 ? [eb.and([eb('id', 'in', others), eb('person', '=', caller.person)])] : []),
      ]),
    )
    .orderBy('id');
  if (dialect === 'postgres') query = query.forUpdate();
  return new Map((await query.execute()).map((row) => [row.id, { ...row }]));
}

const NEW_WALK = {
  tree: null,
  by_name: null,
  site: null,
  drill: 0,
  opened: '',
  length: 0,
  lines: 0,
  forks: 0,
  top: -1,
  hands: 0,
  told_length: 0,
  told_head: null,
  shrunk: 0,
  closed: 0,
  summed: 0,
  ...NOT_SUMMED_UP,
  held: null,
  held_bench: null,
  held_fault: null,
  touched: 1,
} as const;

/** What is there already, as far as new lines of these walks can touch it. */
async function loadSpines(
  tx: HubTx,
  rows: ReadonlyMap<string, WalkRow>,
  walks: ReadonlyMap<string, readonly Read[]>,
): Promise<Map<string, WalkSpine>> {
  const spines = new Map([...walks.keys()].map((id) => [id, new WalkSpine()]));
  const spans = [...walks].flatMap(([walk, reads]) => {
    const row = rows.get(walk);
    // A walk that is new has nothing to load.
    if (!row || row.lines === 0) return [];
    return [{ walk, from: Math.min(row.length, ...reads.map(({ line }) => line.seq - 1)) }];
  });
  if (spans.length === 0) return spines;
  const there = await tx
    .selectFrom('walk_line')
    .select(['walk', 'seq', 'hash', 'before', 'forked', 'type', 'person'])
    .where((eb) => eb.or(spans.map(({ walk, from }) => eb.and([eb('walk', '=', walk), eb('seq', '>=', from)]))))
    .execute();
  for (const { walk, ...line } of there) spines.get(walk)?.add({ ...line, forked: line.forked !== 0 });
  return spines;
}

/** Judges one line against what is there, and notes it for the disk where it is new. */
function placed(spine: WalkSpine, line: WalkLine, text: string, row: WalkRow, caller: Caller, now: string, fresh: WalkLineRow[]): LineOutcome {
  const place = spine.place(line);
  if (place === 'already') return { outcome: 'already' };
  if (place === 'forked' && row.forks >= MOST_FORKS) return { outcome: 'refused', fault: 'too-many-forks', detail: `${MOST_FORKS} lines at most` };
  const forked = place === 'forked';
  const known: Placed = { seq: line.seq, hash: line.hash, before: line.before, forked, type: line.event.type };
  spine.add(known);
  fresh.push({ ...known, walk: line.walk, forked: forked ? 1 : 0, person: caller.person, device: caller.device, arrived: now, text });
  row.lines += 1;
  row.forks += forked ? 1 : 0;
  row.top = Math.max(row.top, line.seq);
  const at = utcText(line.time);
  if (at > row.last_at) row.last_at = at;
  if (line.seq === 0 && !forked) {
    row.opened = at;
    if (row.edition !== line.edition) row.tree = null;
    row.edition = line.edition;
    const { event } = line;
    if (event.type === 'opened') {
      row.by_name = plain(event.by);
      row.site = plain(event.site);
      row.drill = event.drill === true ? 1 : 0;
    }
  }
  return { outcome: forked ? 'forked' : 'stored' };
}

async function insertLines(tx: HubTx, lines: readonly WalkLineRow[]): Promise<void> {
  if (lines.length > 0)
    await tx
      .insertInto('walk_line')
      .values([...lines])
      .execute();
}

async function countHands(tx: HubTx, rows: ReadonlyMap<string, WalkRow>, walks: ReadonlyMap<string, readonly Read[]>, caller: Caller): Promise<void> {
  // Only the first upload of someone else to a walk finds a new hand; the owner's own is counted with the walk's first line.
  const others = [...walks.keys()].filter((id) => (rows.get(id)?.hands ?? 0) === 0 || rows.get(id)?.person !== caller.person);
  if (others.length === 0) return;
  const put = await tx
    .insertInto('walk_hand')
    .values(others.map((walk) => ({ walk, person: caller.person })))
    .onConflict((c) => c.columns(['walk', 'person']).doNothing())
    .returning('walk')
    .execute();
  for (const { walk } of put) {
    const row = rows.get(walk);
    if (row) row.hands += 1;
  }
}

async function nameTrees(tx: HubTx, rows: ReadonlyMap<string, WalkRow>): Promise<void> {
  const hashes = [...new Set([...rows.values()].filter(({ tree }) => tree === null).map(({ edition }) => edition))];
  if (hashes.length === 0) return;
  const found = await tx.selectFrom('edition').select(['hash', 'tree']).where('hash', 'in', hashes).execute();
  const trees = new Map(found.map(({ hash, tree }) => [hash, tree]));
  for (const row of rows.values()) row.tree ??= trees.get(row.edition) ?? null;
}

/** Keeps the most that the devices have told of, and marks a walk of which one told less, or another end, than before. */
function tell(row: WalkRow, tail: Tail | undefined): void {
  if (!tail) return;
  if (tail.length < row.told_length) row.shrunk = 1;
  if (tail.length > row.told_length) {
    row.told_length = tail.length;
    row.told_head = tail.head;
  }
}

/** What lines and tails can change of a walk. */
const changed = (row: WalkRow): Partial<WalkRow> => {
  const { edition, tree, by_name, site, drill, opened, last_at, length, head, lines, forks, top, hands, told_length, told_head, shrunk, closed } =
    row;
  return { edition, tree, by_name, site, drill, opened, last_at, length, head, lines, forks, top, hands, told_length, told_head, shrunk, closed };
};

/** Walks as they stand, of those that the caller may ask for: their own, and those they sent lines of. */
export async function standingsOf({ db }: HubStore, caller: Caller, walks: readonly string[]): Promise<readonly Standing[]> {
  if (walks.length === 0) return [];
  const rows = await db
    .selectFrom('walk')
    .selectAll()
    .where('id', 'in', [...walks])
    .where(({ exists, selectFrom }) =>
      exists(
        selectFrom('walk_hand').select(sql`1`.as('one')).whereRef('walk_hand.walk', '=', 'walk.id').where('walk_hand.person', '=', caller.person),
      ),
    )
    .execute();
  return rows.map((row) => ({ walk: row.id, length: row.length, head: row.head, lines: row.lines, flags: flagsOf(row) }));
}
