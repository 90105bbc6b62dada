import { afterAll, expect, test } from 'vitest';
import type { WalkLine } from '../../engine/walk/index.ts';
import { ownerCode } from '../../shared/crew/store/invitation-store.ts';
import { openStore, storeFile } from '../../shared/crew/store/open-store.ts';
import { hubClient } from '../../shared/sync/hub-client.ts';
import { type HubProcess, type HubProgram, hubProgram } from './testing/hub-process.ts';
import { sqlitePlace } from './testing/hub-under-test.ts';
import { plainLines } from './testing/sample-walks.ts';
import { seededRandom } from './testing/seeded-random.ts';

const KILLS = 100;

const place = sqlitePlace();
let program: HubProgram | undefined;
afterAll(async () => {
  await program?.clear();
  place.clear();
});

test(`a hub that is killed at ${KILLS} points under sync has every line that it said it has, once`, { timeout: 1_800_000 }, async () => {
  const random = seededRandom(7);
  const store = await openStore({ sqlite: storeFile(place.folder) });
  const { code } = await ownerCode(store, new Date().toISOString());
  await store.close();

  const made = await hubProgram();
  program = made;
  const start = (): Promise<HubProcess> => made.start({ DATA: place.folder });
  let hub: HubProcess = await start();
  // The next one starts while this one is at work: what is measured is the killing, not the waiting.
  let next = start();
  let token: string | undefined;
  const client = hubClient({ fetch: (path, init) => fetch(`${hub.url}${path}`, init), token: () => token, patience: 60_000 });
  const joined = await client.join({ code, name: 'Ona', kind: 'field', label: 'phone' });
  if (!joined.ok) throw new Error(joined.problem.code);
  token = joined.value.token;

  const acknowledged = new Map<string, WalkLine>();
  const all: WalkLine[][] = [];
  let cut = 0;
  let lastCut = '';
  for (let kill = 0; kill < KILLS; kill += 1) {
    // A dozen phones send at once; the hub goes down somewhere in the midst of it.
    let down = false;
    let sent = 0;
    const point = 1 + Math.floor(random() * 60);
    const phones = Array.from({ length: 12 }, async (_, p) => {
      const lines = plainLines(`walk-${kill}-${p}`, 24);
      all.push(lines);
      for (let at = 0; at < lines.length; ) {
        sent += 1;
        const piece = lines.slice(at, at + 3);
        const answer = await client.upload({ lines: piece, tails: [] });
        if (!answer.ok) {
          cut += 1;
          lastCut = answer.problem.code;
          return;
        }
        for (const [n, { outcome }] of answer.value.outcomes.entries()) {
          const line = piece[n];
          if (line && (outcome === 'stored' || outcome === 'already')) acknowledged.set(line.hash, line);
        }
        at += piece.length;
        if (down) return;
      }
    });
    let ended = false;
    void Promise.allSettled(phones).then(() => {
      ended = true;
    });
    while (sent < point && !ended) await new Promise((resolve) => setImmediate(resolve));
    // Together they have more to send than that, so they have given up on a hub that nobody has killed yet.
    if (sent < point) throw new Error(`all phones gave up before kill ${kill}, after ${sent} uploads of ${point}: ${lastCut}`);
    await new Promise((resolve) => setTimeout(resolve, random() * 8));
    await hub.kill();
    down = true;
    await Promise.all(phones);
    hub = await next;
    next = start();
  }
  await (await next).kill();

  // Most kills met uploads on their way, or this shows nothing.
  expect(cut).toBeGreaterThan(KILLS);
  expect(acknowledged.size).toBeGreaterThan(KILLS * 3);

  // Everything is sent once more, as phones do that never heard back, and then every line is there once.
  for (const lines of all) {
    const answer = await client.upload({ lines, tails: [] });
    if (!answer.ok) throw new Error(answer.problem.code);
    for (const [n, { outcome }] of answer.value.outcomes.entries()) {
      const line = lines[n];
      if (!line) continue;
      // What was acknowledged was there: it is never new to the hub.
      if (acknowledged.has(line.hash)) expect(outcome).toBe('already');
      else expect(['already', 'stored']).toContain(outcome);
    }
    expect(answer.value.standings[0]).toMatchObject({ length: 24, lines: 24 });
  }
  await hub.kill();
  const after = await openStore({ sqlite: storeFile(place.folder) });
  const rows = await after.db.selectFrom('walk_line').select(['hash', 'text']).execute();
  await after.close();
  const lines = all.flat();
  expect(rows).toHaveLength(lines.length);
  expect(new Set(rows.map(({ hash }) => hash))).toEqual(new Set(lines.map(({ hash }) => hash)));
  const texts = new Map(rows.map(({ hash, text }) => [hash, text]));
  for (const line of acknowledged.values()) expect(JSON.parse(texts.get(line.hash) ?? '')).toEqual(line);
  console.info(
    `${KILLS} kills, ${cut} uploads cut off, ${acknowledged.size} lines acknowledged before them, ${rows.length} lines in the end, each once`,
  );
});
