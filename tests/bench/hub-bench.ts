import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import type { Caller } from '../../shared/crew/roles/caller.ts';
import { buildServer } from '../../shared/crew/serve.ts';
import { join as joinCrew, ownerCode } from '../../shared/crew/store/invitation-store.ts';
import { openSqlite, openStore } from '../../shared/crew/store/open-store.ts';
import { crewPicture } from '../../shared/crew/store/picture-store.ts';
import { takeLines } from '../../shared/crew/store/take-lines.ts';
import { listWalks } from '../../shared/crew/store/walk-query.ts';
import { EDITION_HASH, plainLines } from '../crew/testing/sample-walks.ts';
import { type Bench, benchRow } from './bench-row.ts';

// What a hub costs over the bare database: every line checked (shape, hash, place in its chain), every caller known, and both on the disk
// before the answer. The bare loop does nothing of that; it inserts the same rows with the same durability.

const BATCH = 20;
const EVENTS = 4_000;
const WALKS_BIG = 25_000;
const LINES_EACH = 40;
const STAYS_EACH = 12;
const PHONES = 40;

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? Number.NaN;

async function timesInTurns(
  turns: number,
  ours: (turn: number) => Promise<unknown>,
  other: (turn: number) => unknown,
): Promise<{ ours: number; other: number }> {
  const kept: { ours: number[]; other: number[] } = { ours: [], other: [] };
  for (let turn = -2; turn < turns; turn += 1) {
    const start = performance.now();
    await ours(turn);
    const middle = performance.now();
    other(turn);
    const end = performance.now();
    if (turn < 0) continue;
    kept.ours.push(middle - start);
    kept.other.push(end - middle);
  }
  return { ours: median(kept.ours), other: median(kept.other) };
}

const INSERT = 'insert into walk_line (walk, seq, hash, before, type, person, device, arrived, forked, text) values (?, ?, ?, ?, ?, ?, ?, ?, 0, ?)';

function bareTable(file: string): Database.Database {
  const sqlite = openSqlite(file);
  sqlite.exec(
    'create table walk_line (walk text, seq integer, hash text, before text, type text, person text, device text, arrived text, forked integer, text text, primary key (walk, seq, hash)) without rowid',
  );
  return sqlite;
}

const bench: Bench = async () => {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-hub-bench-'));
  const now = () => new Date().toISOString();
  const store = await openStore({ sqlite: join(folder, 'hub.sqlite') });
  const joined = await joinCrew(store, { code: (await ownerCode(store, now())).code, name: 'Ona', kind: 'field', label: 'x' }, now());
  if (!joined.ok) throw new Error(joined.problem);
  const { person, device, secret } = joined.value;
  const caller: Caller = { person: person.id, name: person.name, role: person.role, device: device.id, kind: 'field' };
  const { app } = await buildServer({ trees: folder, hub: { store, limits: { device: 1e9, stranger: 1e9, codes: 1e9 } } });
  await app.ready();
  const bare = bareTable(join(folder, 'bare.sqlite'));
  const insert = bare.prepare(INSERT);
  const insertAll = bare.transaction((lines: ReturnType<typeof plainLines>) => {
    for (const line of lines) insert.run(line.walk, line.seq, line.hash, line.before, line.event.type, 'p', 'd', line.time, JSON.stringify(line));
  });
  const rows = [];

  for (const [name, size] of [
    [`in uploads of ${BATCH}`, BATCH],
    ['one to an upload', 1],
  ] as const) {
    const count = size === 1 ? EVENTS / 10 : EVENTS;
    const made = Array.from({ length: 8 }, (_, turn) => plainLines(`${size}-${turn}`, count));
    const pieces = (turn: number) => Array.from({ length: count / size }, (_, n) => (made[turn + 2] ?? []).slice(n * size, (n + 1) * size));
    const upload = async (turn: number) => {
      for (const lines of pieces(turn)) {
        const answer = await app.inject({
          method: 'POST',
          url: '/crew/walks/lines',
          headers: { authorization: `Bearer ${secret}` },
          payload: { lines, tails: [] },
        });
        if (answer.statusCode !== 200) throw new Error(answer.body);
      }
    };
    const times = await timesInTurns(6, upload, (turn) => {
      for (const lines of pieces(turn)) insertAll(lines);
    });
    rows.push(
      benchRow(
        `a durable event ${name}: request to answer`,
        times.ours / count,
        times.other / count,
        `a raw better-sqlite3 insert, ${size} to a transaction, nothing checked; ours ${Math.round((1000 * count) / times.ours)} events a second`,
      ),
    );
    const direct = Array.from({ length: 8 }, (_, turn) => plainLines(`direct-${size}-${turn}`, count));
    const bareOnes = Array.from({ length: 8 }, (_, turn) => plainLines(`bare-${size}-${turn}`, count));
    const cut = (all: readonly ReturnType<typeof plainLines>[], turn: number) =>
      Array.from({ length: count / size }, (_, n) => (all[turn + 2] ?? []).slice(n * size, (n + 1) * size));
    const alone = await timesInTurns(
      6,
      async (turn) => {
        for (const lines of cut(direct, turn)) await takeLines(store, caller, lines, [], now());
      },
      (turn) => {
        for (const lines of cut(bareOnes, turn)) insertAll(lines);
      },
    );
    rows.push(
      benchRow(
        `a durable event ${name}: the store alone`,
        alone.ours / count,
        alone.other / count,
        `the same; ours ${Math.round((1000 * count) / alone.ours)} events a second`,
      ),
    );
  }

  // As many phones at once as a crew has, each with one event: they wait for the disk together.
  const phones = Array.from({ length: 8 }, (_, turn) => plainLines(`phones-${turn}`, 1).concat(plainLines(`phones-rest-${turn}`, EVENTS / 10 - 1)));
  const together = await timesInTurns(
    6,
    async (turn) => {
      const lines = phones[turn + 2] ?? [];
      for (let at = 0; at < lines.length; at += PHONES) {
        const answers = await Promise.all(
          lines.slice(at, at + PHONES).map((line) =>
            app.inject({
              method: 'POST',
              url: '/crew/walks/lines',
              headers: { authorization: `Bearer ${secret}` },
              payload: { lines: [line], tails: [] },
            }),
          ),
        );
        for (const answer of answers) if (answer.statusCode !== 200) throw new Error(answer.body);
      }
    },
    (turn) => {
      for (const line of phones[turn + 2] ?? []) insertAll([line]);
    },
  );
  rows.push(
    benchRow(
      `a durable event one to an upload, ${PHONES} uploads at once: request to answer`,
      together.ours / (EVENTS / 10),
      together.other / (EVENTS / 10),
      `a raw better-sqlite3 insert, 1 to a transaction, nothing checked; ours ${Math.round((100 * EVENTS) / together.ours)} events a second`,
    ),
  );

  // A million events, put there by the database itself.
  const sqlite = store.sqlite;
  if (!sqlite) throw new Error('no SQLite');
  const text = JSON.stringify(plainLines('x', 1)[0]);
  sqlite.exec('begin');
  sqlite
    .prepare(
      `with recursive n(i) as (select 0 union all select i + 1 from n where i < ${WALKS_BIG - 1})
       insert into walk (id, edition, tree, person, opened, last_at, arrived, length, head, lines, top, outcome, closed, summed, minutes, minutes_bin, finding_tree, finding_step)
       select 'big-' || i, ?, case i % 7 when 0 then 'dry-pad' else 'tree-' || (i % 7) end, ?, strftime('%Y-%m-%dT%H:%M:%S.000Z', 1700000000 + i * 997 % 50000000, 'unixepoch'), '2026', '2026', ${LINES_EACH}, 'h', ${LINES_EACH}, ${LINES_EACH - 1},
         case i % 3 when 0 then 'fixed' when 1 then 'unsolved' else null end, 1, ${LINES_EACH}, 30 + i % 40, 43 + i % 9, 't', 'step-' || (i % 7) from n`,
    )
    .run(EDITION_HASH, person.id);
  sqlite
    .prepare(
      `with recursive n(i) as (select 0 union all select i + 1 from n where i < ${WALKS_BIG * LINES_EACH - 1})
       insert into walk_line (walk, seq, hash, before, type, person, device, arrived, forked, text)
       select 'big-' || (i / ${LINES_EACH}), i % ${LINES_EACH}, 'h' || i, 'b', 'noted', 'p', 'd', '2026', 0, ? from n`,
    )
    .run(text);
  sqlite
    .prepare(
      `with recursive n(i) as (select 0 union all select i + 1 from n where i < ${WALKS_BIG * STAYS_EACH - 1})
       insert into walk_step (walk, place, tree, step, kind, way, minutes, bin, could_not, too_close, accepted, jumped, stepped_back)
       select 'big-' || (i / ${STAYS_EACH}), i % ${STAYS_EACH}, 't', 'step-' || (i % ${STAYS_EACH}), 'reading', 'way-' || (i % 5), (i % 600) / 60.0, i % 37,
         i % 29 = 0, i % 17 = 0, i % 34 = 0, i % 23 = 0, i % 19 = 0 from n`,
    )
    .run();
  sqlite.exec('commit; analyze');

  const raw = sqlite.prepare(
    `select walk.*, person.name as person_name, edition.title from walk join person on person.id = walk.person left join edition on edition.hash = walk.edition
     where walk.tree = ? and walk.outcome = ? order by walk.opened desc, walk.id desc limit 51`,
  );
  const listed = await timesInTurns(
    40,
    () => listWalks(store, caller, { tree: 'dry-pad', outcome: 'fixed', most: 50 }),
    () => raw.all('dry-pad', 'fixed'),
  );
  rows.push(benchRow(`a page of the crew’s list, filtered, over ${WALKS_BIG * LINES_EACH} events`, listed.ours, listed.other, 'the same SQL, raw'));

  const rawPicture = [
    `select edition, closed, outcome, minutes_bin, count(*), sum(minutes) from walk where tree = ? and drill = 0 group by 1, 2, 3, 4`,
    `select edition, finding_tree, finding_step, count(*), count(held), sum(held) from walk where tree = ? and drill = 0 and closed = 1 and finding_step is not null group by 1, 2, 3`,
    `select w.edition, s.tree, s.step, s.way, s.bin, count(*), sum(s.minutes), sum(could_not), sum(too_close), sum(accepted), sum(jumped), sum(stepped_back)
     from walk w join walk_step s on s.walk = w.id where w.tree = ? and w.drill = 0 and w.closed = 1 group by 1, 2, 3, 4, 5`,
  ].map((query) => sqlite.prepare(query));
  for (const [what, tree] of [
    [`one tree of seven`, 'dry-pad'],
    [`all of one tree`, 'the-only'],
  ] as const) {
    if (tree === 'the-only') sqlite.prepare("update walk set tree = ? where id like 'big-%'").run(tree);
    const counted = await timesInTurns(
      8,
      () => crewPicture(store, tree, {}),
      () => rawPicture.map((query) => query.all(tree)),
    );
    rows.push(
      benchRow(
        `a picture of the crew, ${WALKS_BIG * LINES_EACH} events, ${what}`,
        counted.ours,
        counted.other,
        'the same SQL, raw, not put together',
      ),
    );
  }

  const rawLines = sqlite.prepare('select text from walk_line where walk = ? order by seq');
  const read = await timesInTurns(
    40,
    (turn) =>
      store.db
        .selectFrom('walk_line')
        .select('text')
        .where('walk', '=', `big-${(turn + 5) * 97}`)
        .orderBy('seq')
        .execute(),
    (turn) => rawLines.all(`big-${(turn + 5) * 97}`),
  );
  rows.push(benchRow(`the lines of one walk out of ${WALKS_BIG * LINES_EACH}`, read.ours, read.other, 'the same SQL, raw'));

  await app.close();
  bare.close();
  rmSync(folder, { recursive: true });
  return rows;
};

export default bench;
