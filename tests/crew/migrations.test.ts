import type { Kysely } from 'kysely';
import { afterAll, describe, expect, test } from 'vitest';
import { isMigrated, migrate, NewerSchema, SCHEMA_VERSIONS } from '../../shared/crew/store/migrations/migrate.ts';
import { connectStore, openStore } from '../../shared/crew/store/open-store.ts';
import { eachStore } from './testing/each-store.ts';
import { HubUnderTest } from './testing/hub-under-test.ts';
import { plainLines } from './testing/sample-walks.ts';

type Rows = Record<string, Record<string, unknown>[]>;
type AnyDb = Kysely<Record<string, Record<string, unknown>>>;

const AT = '2026-01-01T00:00:00.000Z';
const HASH = 'a'.repeat(64);
const [LINE] = plainLines('w', 1);

/** Rows as each version would have written them, by the version that first had their table. */
const ROWS: readonly Rows[] = [
  {
    person: [{ id: 'p', name: 'Ona', role: 'owner', since: AT, stopped: null }],
    device: [{ id: 'd', person: 'p', kind: 'field', label: 'x', secret_hash: 'h', since: AT, seen: AT, expires: null, stopped: null }],
    invitation: [
      { id: 'i', code_hash: 'c', role: 'tech', person: null, made_by: 'p', since: AT, expires: AT, note: null, used: null, stopped: null },
    ],
    audit: [{ at: AT, person: 'p', device: 'd', what: 'joined', about: 'd', details: '{}' }],
  },
  {
    edition: [{ hash: HASH, tree: 't', title: 'T', complaint: 'C', steps: 1, bytes: 2, text: '{}', since: AT }],
    publication: [{ tree: 't', number: 1, hash: HASH, based_on: null, person: 'p', at: AT, why: 'w', changes: '[]', accepted: '{}' }],
    withdrawal: [{ hash: HASH, tree: 't', person: 'p', at: AT, why: 'w' }],
  },
  {
    walk: [{ id: 'w', edition: HASH, tree: 't', person: 'p', opened: AT, last_at: AT, arrived: AT, length: 1, head: LINE?.hash, lines: 1, top: 0 }],
    walk_line: [
      {
        walk: 'w',
        seq: 0,
        hash: LINE?.hash,
        before: LINE?.before,
        type: 'opened',
        person: 'p',
        device: 'd',
        arrived: AT,
        forked: 0,
        text: JSON.stringify(LINE),
      },
    ],
    walk_hand: [{ walk: 'w', person: 'p' }],
  },
  {
    photo: [{ hash: HASH, type: 'image/png', bytes: 2, body: Buffer.from([1, 2]), since: AT }],
    walk_photo: [{ walk: 'w', photo: 'x', hash: HASH, person: 'p', since: AT }],
  },
  {},
  {
    walk_step: [
      {
        walk: 'w',
        place: 0,
        tree: 't',
        step: 's',
        kind: 'reading',
        way: '24 V to 28 V',
        minutes: 1.5,
        bin: 25,
        could_not: 0,
        too_close: 1,
        accepted: 1,
        jumped: 0,
        stepped_back: 0,
      },
    ],
    confirmation: [{ walk: 'w', number: 1, at: AT, person: 'p', held: 0, bench: 'b', fault: 'f', note: null }],
    drill: [{ id: 'dr', edition: HASH, task: '{}', person: 'p', at: AT, everyone: 0, stopped: null }],
    drill_person: [{ drill: 'dr', person: 'p' }],
    drill_run: [{ drill: 'dr', person: 'p', id: 'r', device: 'd', arrived: AT, text: '{}' }],
  },
];

eachStore((fresh, name) => {
  const open: { close(): Promise<void> }[] = [];
  afterAll(async () => {
    for (const one of open) await one.close();
  });

  test('there are rows for every version', () => expect(ROWS).toHaveLength(SCHEMA_VERSIONS.length));

  describe.each(SCHEMA_VERSIONS.map((version, n) => [version, n] as const))('data of %s', (version, n) => {
    test('is all there after the newest, and the hub works with it', async () => {
      const place = await fresh();
      const old = connectStore(place);
      await migrate(old.db as unknown as Kysely<unknown>, old.dialect, version);
      const rows: Rows = Object.assign({}, ...ROWS.slice(0, n + 1));
      for (const [table, some] of Object.entries(rows)) await (old.db as unknown as AnyDb).insertInto(table).values(some).execute();
      expect(await isMigrated(old.db as unknown as Kysely<unknown>)).toBe(n === SCHEMA_VERSIONS.length - 1);
      await old.close();

      const hub = await HubUnderTest.open(place);
      open.push(hub);
      for (const [table, some] of Object.entries(rows)) {
        const there = await (hub.store.db as unknown as AnyDb).selectFrom(table).selectAll().execute();
        expect(there, table).toEqual(some.map((row) => expect.objectContaining(row)));
      }
      expect((await hub.ask('GET', '/crew/readiness')).body).toEqual({ ready: true });
      const owner = await hub.owner();
      const sent = await owner.ask('POST', '/crew/walks/lines', { json: { lines: plainLines('w', 4) } });
      expect(sent.body.standings[0]).toMatchObject({ length: 4, lines: 4 });
      const { walks } = (await owner.ask('GET', '/crew/changes')).body;
      expect(walks.map(({ walk }: { walk: string }) => walk)).toEqual(['w']);
    });
  });

  test('of a newer program is left as it is, and that is said', async () => {
    const place = await fresh();
    const store = await openStore(place);
    await (store.db as unknown as AnyDb).insertInto('schema_version').values({ name: '9999-of-the-future', timestamp: AT }).execute();
    await store.close();
    await expect(openStore(place)).rejects.toBeInstanceOf(NewerSchema);
  });

  // SQLite waits for a lock by standing still, so two of it in one process would wait for each other.
  test.skipIf(name === 'SQLite')('two processes that start at once both come up', async () => {
    const place = await fresh();
    const stores = await Promise.all([openStore(place), openStore(place)]);
    for (const store of stores) {
      expect(await isMigrated(store.db as unknown as Kysely<unknown>)).toBe(true);
      await store.close();
    }
  });
});
