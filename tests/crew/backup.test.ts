import { mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { backUp, restore } from '../../shared/crew/backup/backup.ts';
import type { HubTables } from '../../shared/crew/store/hub-tables.ts';
import { type HubStore, openStore, type StorePlace } from '../../shared/crew/store/open-store.ts';
import { HOOK_TIME } from './testing/hook-time.ts';
import { HubUnderTest, sqlitePlace } from './testing/hub-under-test.ts';
import { hasPostgres, type PostgresServer, startPostgres } from './testing/postgres-server.ts';
import { DRILL_EDITION, DRILL_HASH, DRILL_TASK } from './testing/sample-drill.ts';
import { closedWalk, EDITION, EDITION_HASH, plainLines } from './testing/sample-walks.ts';

const TABLES: readonly (keyof HubTables)[] = [
  'person',
  'device',
  'invitation',
  'audit',
  'counter',
  'edition',
  'publication',
  'withdrawal',
  'walk',
  'walk_line',
  'walk_hand',
  'walk_step',
  'confirmation',
  'photo',
  'walk_photo',
  'drill',
  'drill_person',
  'drill_run',
];
const NOW = '2026-02-01T00:00:00.000Z';
const PNG = Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), Buffer.from([0, 1, 2, 255])]);

const folder = mkdtempSync(join(tmpdir(), 'ohmward-backups-'));
const made: { clear(): void }[] = [];
let server: PostgresServer | undefined;
beforeAll(async () => {
  if (hasPostgres) server = await startPostgres();
}, HOOK_TIME);
afterAll(async () => {
  await server?.stop();
  for (const one of made) one.clear();
  rmSync(folder, { recursive: true });
});

const fresh = async (kind: 'SQLite' | 'PostgreSQL'): Promise<StorePlace> => {
  if (kind === 'PostgreSQL') return { postgres: (await server?.database()) ?? '' };
  const one = sqlitePlace();
  made.push(one);
  return one.place;
};

/** Everything in a hub, less what the backup itself has written down. */
async function everything({ db }: HubStore): Promise<Record<string, string[]>> {
  const all: Record<string, string[]> = {};
  for (const table of TABLES) {
    const rows = (await db.selectFrom(table).selectAll().execute()) as Record<string, unknown>[];
    all[table] = rows
      .filter(({ what }) => what !== 'backed-up' && what !== 'restored')
      .map((row) =>
        JSON.stringify(
          Object.entries({ ...row, ...(row.body !== undefined && { body: Buffer.from(row.body as Uint8Array).toString('hex') }) }).sort(),
        ),
      )
      .sort();
  }
  return all;
}

async function filled(place: StorePlace): Promise<HubUnderTest> {
  const hub = await HubUnderTest.open(place);
  const owner = await hub.owner();
  const tech = await hub.member(owner, 'tech', 'Tam “Ünïcode” 🔧');
  await owner.ask('POST', '/crew/editions', { json: { hash: EDITION_HASH, edition: EDITION, why: 'first' } });
  await owner.ask('POST', `/crew/editions/${EDITION_HASH}/withdrawal`, { json: { why: 'wrong' } });
  await tech.ask('POST', '/crew/walks/lines', { json: { lines: closedWalk('walk-1') } });
  for (let n = 0; n < 6; n += 1) await tech.ask('POST', '/crew/walks/lines', { json: { lines: plainLines(`long-${n}`, 300, { text: 'x\u0000y' }) } });
  const { createHash } = await import('node:crypto');
  const hash = createHash('sha256').update(PNG).digest('hex');
  expect((await tech.ask('PUT', `/crew/photos/${hash}?walk=walk-1&photo=p`, { raw: PNG, type: 'image/png' })).status).toBe(200);
  expect((await owner.ask('POST', '/crew/walks/walk-1/confirmations', { json: { held: true, note: 'seen' } })).status).toBe(201);
  expect((await owner.ask('PUT', `/crew/editions/${DRILL_HASH}`, { json: DRILL_EDITION })).status).toBe(200);
  const given = await owner.ask('POST', '/crew/drills', { json: { task: DRILL_TASK, people: [tech.person] } });
  expect(given.status).toBe(201);
  const run = { id: 'run-1', moves: ['a\u0000b'] };
  expect((await tech.ask('PUT', `/crew/drills/${given.body.task.id}/runs/run-1`, { json: { run } })).status).toBe(200);
  await owner.ask('GET', '/crew/changes');
  return hub;
}

const KINDS = ['SQLite', 'PostgreSQL'] as const;
const PAIRS = KINDS.flatMap((from) => KINDS.map((to) => [from, to] as const));

describe.each(PAIRS)('a backup of %s restored into %s', (from, to) => {
  test.skipIf(!hasPostgres && (from === 'PostgreSQL' || to === 'PostgreSQL'))('is the same hub, which goes on working', async () => {
    const file = join(folder, `${from}-${to}.backup`);
    const hub = await filled(await fresh(from));
    const before = await everything(hub.store);
    const done = await backUp(hub.store, file, NOW);
    expect(done).toEqual({ ok: true, value: { rows: 15 + 1800 } });
    expect(await backUp(hub.store, file, NOW)).toEqual({ ok: false, problem: { code: 'file-exists' } });
    await hub.close();

    const place = await fresh(to);
    const store = await openStore(place);
    const bytes = readFileSync(file);
    expect((await restore(store, file, NOW)).ok).toBe(true);
    expect(readFileSync(file).equals(bytes)).toBe(true);
    expect(await everything(store)).toEqual(before);
    // It holds something now, and is left alone unless that is said.
    expect(await restore(store, file, NOW)).toEqual({ ok: false, problem: { code: 'not-empty' } });
    expect((await restore(store, file, NOW, { replace: true })).ok).toBe(true);
    expect(await everything(store)).toEqual(before);
    for (const table of ['audit', 'confirmation'] as const) await expect(store.db.deleteFrom(table).execute()).rejects.toThrow('append-only');
    await store.close();

    const again = await HubUnderTest.open(place);
    const owner = await again.owner();
    const { entries } = (await owner.ask('GET', '/crew/audit')).body;
    expect(entries.map(({ what }: { what: string }) => what)).toEqual(expect.arrayContaining(['joined', 'restored', 'backed-up', 'published']));
    expect((await owner.ask('GET', '/crew/walks/walk-1/lines')).body.lines).toEqual(closedWalk('walk-1'));
    expect((await owner.ask('GET', '/crew/walks/walk-1/photos/p')).status).toBe(200);
    await again.close();
  });
});

describe('a file that is no backup', () => {
  test('changes nothing', async () => {
    const hub = await filled(await fresh('SQLite'));
    const whole = join(folder, 'whole.backup');
    await backUp(hub.store, whole, NOW);
    await hub.close();
    const store = await openStore(await fresh('SQLite'));
    const text = join(folder, 'text.backup');
    writeFileSync(text, 'not a database');
    const cut = join(folder, 'cut.backup');
    writeFileSync(cut, readFileSync(whole));
    truncateSync(cut, 40_000);
    for (const file of [text, cut]) expect((await restore(store, file, NOW)).ok, file).toBe(false);
    expect(await restore(store, join(folder, 'none'), NOW)).toEqual({ ok: false, problem: { code: 'no-file' } });
    expect((await everything(store)).person).toEqual([]);
    await store.close();
  });
});

test('a backup while phones write is of one moment: every walk in it is whole as far as it says', async () => {
  const hub = await HubUnderTest.open(await fresh('SQLite'));
  const owner = await hub.owner();
  let writing = true;
  let begin = (): void => undefined;
  const begun = new Promise<void>((resolve) => {
    begin = resolve;
  });
  const writer = (async () => {
    for (let n = 0; writing; n += 1) {
      const answer = await owner.ask('POST', '/crew/walks/lines', { json: { lines: plainLines(`busy-${n}`, 20) } });
      expect(answer.status).toBe(200);
      begin();
      await new Promise((resolve) => setImmediate(resolve));
    }
  })();
  const file = join(folder, 'busy.backup');
  // A walk is there, and more are being written; a writer that fails before that fails the test.
  await Promise.race([begun, writer]);
  expect((await backUp(hub.store, file, NOW)).ok).toBe(true);
  writing = false;
  await writer;
  await hub.close();
  const copy = await openStore({ sqlite: file });
  const walks = await copy.db.selectFrom('walk').select(['id', 'length']).execute();
  expect(walks.length).toBeGreaterThan(0);
  for (const { id, length } of walks) {
    const lines = await copy.db.selectFrom('walk_line').select('seq').where('walk', '=', id).execute();
    expect([length, lines.length]).toEqual([20, 20]);
  }
  await copy.close();
});
