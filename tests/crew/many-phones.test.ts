import { afterEach, describe, expect, test } from 'vitest';
import type { Caller } from '../../shared/crew/roles/caller.ts';
import { invite, join, ownerCode } from '../../shared/crew/store/invitation-store.ts';
import { openStore, type StorePlace, storeFile } from '../../shared/crew/store/open-store.ts';
import { hubClient } from '../../shared/sync/hub-client.ts';
import { passesByItself } from '../../shared/sync/hub-problem.ts';
import { uploadMemory, WalkUpload } from '../../shared/sync/upload-walks.ts';
import { type HubProcess, hubProgram } from './testing/hub-process.ts';
import { sqlitePlace } from './testing/hub-under-test.ts';
import { PhoneInMemory } from './testing/phone-in-memory.ts';
import { hasPostgres, startPostgres } from './testing/postgres-server.ts';
import { plainLines } from './testing/sample-walks.ts';

const PHONES = 500;
const LINES = 30;
const BURSTS = 3;

/** Tokens of as many phones, each of its own tech. */
async function tokensOf(place: StorePlace): Promise<string[]> {
  const store = await openStore(place);
  const now = new Date().toISOString();
  const joinAs = async (code: string, name: string) => {
    const joined = await join(store, { code, name, kind: 'field', label: name }, now);
    if (!joined.ok) throw new Error(joined.problem);
    return joined.value;
  };
  const first = await joinAs((await ownerCode(store, now)).code, 'Ona');
  const owner: Caller = { person: first.person.id, name: 'Ona', role: 'owner', device: first.device.id, kind: 'field' };
  const codes = await invite(store, owner, { role: 'tech', hours: 1, count: PHONES }, now);
  const tokens: string[] = [];
  for (const [n, { code }] of codes.entries()) tokens.push((await joinAs(code, `tech ${n}`)).secret);
  await store.close();
  return tokens;
}

async function worksThrough(hubs: readonly HubProcess[], place: StorePlace, tokens: readonly string[]): Promise<void> {
  const walks = tokens.map((_, n) => plainLines(`walk-${n}`, LINES));
  await Promise.all(
    tokens.map(async (token, n) => {
      const phone = new PhoneInMemory();
      let asked = 0;
      // Each request goes to the next hub, as behind a proxy that deals them out, and every fifth goes out twice.
      const send = (path: string, init?: RequestInit) => fetch(`${hubs[(n + asked++) % hubs.length]?.url}${path}`, init);
      const client = hubClient({
        fetch: async (path, init) => ((asked + n) % 5 === 0 ? (await Promise.all([send(path, init), send(path, init)]))[1] : send(path, init)),
        token: () => token,
      });
      const memory = uploadMemory();
      for (let burst = 0; burst < BURSTS; burst += 1) {
        phone.write(...(walks[n] ?? []).slice((burst * LINES) / BURSTS, ((burst + 1) * LINES) / BURSTS));
        for (;;) {
          const sent = await new WalkUpload(client, phone, memory).run();
          if (sent.ok) break;
          if (!passesByItself(sent.problem)) throw new Error(JSON.stringify(sent.problem));
          await new Promise((resolve) => setTimeout(resolve, 100));
        }
      }
      expect(phone.notes).toEqual([]);
    }),
  );
  const store = await openStore(place);
  const rows = await store.db.selectFrom('walk_line').select(['hash', 'forked', 'text']).execute();
  const summaries = await store.db.selectFrom('walk').select(['id', 'length', 'lines', 'forks']).execute();
  await store.close();
  expect(rows).toHaveLength(PHONES * LINES);
  expect(new Map(rows.map(({ hash, text }) => [hash, JSON.parse(text)]))).toEqual(new Map(walks.flat().map((line) => [line.hash, line])));
  expect(rows.every(({ forked }) => forked === 0)).toBe(true);
  expect(summaries).toHaveLength(PHONES);
  for (const one of summaries) expect(one).toMatchObject({ length: LINES, lines: LINES, forks: 0 });
}

describe(`${PHONES} phones at once lose nothing`, () => {
  /** Ended and cleared away the last one first, also where a test failed: a server that is left running takes the machine from all others. */
  const ends: (() => unknown)[] = [];
  afterEach(async () => {
    for (const end of ends.splice(0).reverse()) await end();
  });

  async function startHubs(...environments: readonly Readonly<Record<string, string>>[]): Promise<readonly HubProcess[]> {
    const program = await hubProgram();
    ends.push(() => program.clear());
    return Promise.all(environments.map((environment) => program.start(environment)));
  }

  test('with SQLite and one hub', { timeout: 600_000 }, async () => {
    const sqlite = sqlitePlace();
    ends.push(() => sqlite.clear());
    const place = { sqlite: storeFile(sqlite.folder) };
    const tokens = await tokensOf(place);
    const hubs = await startHubs({ DATA: sqlite.folder });
    await worksThrough(hubs, place, tokens);
  });

  test.skipIf(!hasPostgres)('with PostgreSQL and two hubs', { timeout: 600_000 }, async () => {
    const server = await startPostgres({ durable: true });
    ends.push(() => server.stop());
    const postgres = await server.database();
    const tokens = await tokensOf({ postgres });
    const hubs = await startHubs({ DATABASE_URL: postgres }, { DATABASE_URL: postgres });
    await worksThrough(hubs, { postgres }, tokens);
  });
});
