import fc from 'fast-check';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { WalkLine } from '../../engine/walk/index.ts';
import { CrewSync } from '../../shared/sync/crew-sync.ts';
import { editionNotices } from '../../shared/sync/edition-notices.ts';
import { retryDelay } from '../../shared/sync/retry-delay.ts';
import { BadNetwork, type Fate } from './testing/bad-network.ts';
import { HOOK_TIME } from './testing/hook-time.ts';
import { HubUnderTest, type Member, sqlitePlace } from './testing/hub-under-test.ts';
import { PhoneInMemory } from './testing/phone-in-memory.ts';
import { closedWalk, EDITION, EDITION_HASH, editionTitled, headOf, plainLines } from './testing/sample-walks.ts';

const PNG = new Blob([Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), Buffer.from('picture')])], { type: 'image/png' });

const place = sqlitePlace();
let hub: HubUnderTest;
let owner: Member;
let tech: Member;
let count = 0;
const newWalk = (): string => `walk-${count++}`;

beforeAll(async () => {
  hub = await HubUnderTest.open(place.place);
  owner = await hub.owner();
  tech = await hub.member(owner, 'tech', 'Tam');
}, HOOK_TIME);
afterAll(async () => {
  await hub.close();
  place.clear();
});

let phone: PhoneInMemory;
beforeEach(() => {
  phone = new PhoneInMemory();
});

function syncOf(fates: readonly Fate[] = [], { token = () => tech.secret as string | undefined, online = (): boolean => true } = {}) {
  const network = new BadNetwork(() => hub, fates);
  const clock = { now: 0 };
  const waited: number[] = [];
  const sync = new CrewSync({
    wire: { fetch: network.fetch, token },
    store: phone,
    now: () => clock.now,
    random: () => 0.5,
    isOnline: online,
    wait: async (ms) => {
      waited.push(ms);
      clock.now += ms;
      await new Promise((resolve) => setImmediate(resolve));
    },
  });
  return { sync, network, clock, waited };
}

const stored = async (walk: string): Promise<WalkLine[]> =>
  (await hub.store.db.selectFrom('walk_line').select('text').where('walk', '=', walk).orderBy('seq').execute()).map(({ text }) => JSON.parse(text));

/** Passes until the hub has everything, as the loop makes them. */
async function untilDone(sync: CrewSync, most = 200): Promise<number> {
  for (let passes = 1; passes <= most; passes += 1) {
    await sync.pass();
    if (sync.state.code === 'done') return passes;
  }
  throw new Error(`still ${JSON.stringify(sync.state)}`);
}

const fate = fc.constantFrom<Fate>('well', 'lost', 'unanswered', 'twice', 'late', 'sign-in page', 'bad gateway', 'slow down', 'too large');

describe('walks', () => {
  test('arrive whole and once, whatever the network does to them', { timeout: 180_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fate, { maxLength: 40 }),
        fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 5 }),
        fc.integer({ min: 0, max: 10 }),
        async (fates, lengths, later) => {
          phone = new PhoneInMemory();
          const walks = lengths.map((length) => plainLines(newWalk(), length + later));
          for (const [n, lines] of walks.entries()) phone.write(...lines.slice(0, lengths[n]));
          const { sync } = syncOf(fates);
          await sync.pass();
          // The tech goes on working while it is tried.
          for (const [n, lines] of walks.entries()) phone.write(...lines.slice(lengths[n]));
          await untilDone(sync);
          for (const lines of walks) {
            const id = lines[0]?.walk ?? '';
            expect(await stored(id)).toEqual(lines);
            expect(phone.sent.get(id)).toBe(lines.length);
          }
          expect(phone.notes).toEqual([]);
        },
      ),
      { seed: 11, numRuns: 120 },
    );
  });

  test('of a week without a signal catch up in one pass', async () => {
    let online = false;
    const walks = Array.from({ length: 35 }, () => closedWalk(newWalk()));
    for (const lines of walks) phone.write(...lines);
    const { sync, network } = syncOf([], { online: () => online });
    await sync.pass();
    expect(sync.state).toMatchObject({ code: 'waiting', problem: { code: 'no-signal' }, left: 35 * 15 });
    expect(network.asked).toBe(0);
    online = true;
    await sync.pass();
    expect(sync.state.code).toBe('done');
    for (const lines of walks) expect(await stored(lines[0]?.walk ?? '')).toEqual(lines);
    // 525 lines in batches of 200, the comparison before them and the list of editions after.
    expect(network.asked).toBeLessThan(10);
  });

  test('that the hub has lost, restored from an old backup, are sent again', async () => {
    const lines = plainLines(newWalk(), 12);
    const id = lines[0]?.walk ?? '';
    phone.write(...lines);
    await untilDone(syncOf().sync);
    const { db } = hub.store;
    await db.deleteFrom('walk_line').where('walk', '=', id).where('seq', '>=', 4).execute();
    await db
      .updateTable('walk')
      .set({ length: 4, lines: 4, top: 3, head: headOf(lines.slice(0, 4)), told_length: 4 })
      .where('id', '=', id)
      .execute();
    await untilDone(syncOf().sync);
    expect(await stored(id)).toEqual(lines);
    await db.deleteFrom('walk_line').where('walk', '=', id).execute();
    await db.deleteFrom('walk_hand').where('walk', '=', id).execute();
    await db.deleteFrom('walk').where('id', '=', id).execute();
    await untilDone(syncOf().sync);
    expect(await stored(id)).toEqual(lines);
  });

  test('carried on in two places are kept, and told', async () => {
    const id = newWalk();
    const common = plainLines(id, 3);
    await tech.ask('POST', '/crew/walks/lines', {
      json: { lines: [...common, ...plainLines(id, 2, { from: 3, before: headOf(common), text: 'a' })] },
    });
    const mine = [...common, ...plainLines(id, 4, { from: 3, before: headOf(common), text: 'b' })];
    phone.write(...mine);
    const { sync, network } = syncOf();
    await untilDone(sync);
    expect(phone.notes).toEqual([{ walk: id, note: { code: 'forked' } }]);
    expect(await stored(id)).toHaveLength(9);
    const before = network.asked;
    await sync.pass();
    // Nothing more to send: the lists of editions and of drills alone.
    expect(network.asked).toBe(before + 2);
  });

  test('with a line that the hub never takes do not hold up the others', async () => {
    const broken = plainLines(newWalk(), 4);
    const id = broken[0]?.walk ?? '';
    phone.write(...broken.map((line) => (line.seq === 1 ? { ...line, mono: 5 } : line)));
    const good = plainLines(newWalk(), 4);
    phone.write(...good);
    const { sync, network } = syncOf();
    await untilDone(sync);
    expect(phone.notes).toEqual([{ walk: id, note: expect.objectContaining({ code: 'line-refused', seq: 1, fault: 'line-changed' }) }]);
    expect(await stored(good[0]?.walk ?? '')).toEqual(good);
    expect((await stored(id)).map(({ seq }) => seq)).toEqual([0, 2, 3]);
    const before = network.asked;
    await sync.pass();
    expect(network.asked).toBe(before + 2);
  });
});

describe('what the hub answers', () => {
  const only = (status: number, body: object, headers = {}) =>
    new CrewSync({
      wire: { fetch: async () => new Response(JSON.stringify(body), { status, headers }), token: () => tech.secret },
      store: phone,
      now: () => 0,
      random: () => 0.5,
      isOnline: () => true,
      wait: async () => undefined,
    });

  test.each([
    [401, 'not-joined', 'outside'],
    [401, 'device-stopped', 'outside'],
    [401, 'person-stopped', 'outside'],
    [403, 'not-allowed', 'stuck'],
    [429, 'slow-down', 'waiting'],
    [503, 'hub-busy', 'waiting'],
    [500, 'hub-troubled', 'waiting'],
    [404, 'no-hub', 'waiting'],
  ])('%i %s: %s', async (status, code, state) => {
    phone.write(...plainLines(newWalk(), 3));
    const sync = only(status, { code, error: 'x' });
    await sync.pass();
    expect(sync.state).toMatchObject({ code: state, problem: { code, status }, left: 3 });
    expect(phone.sent.size).toBe(0);
  });

  test('is waited for as long as it asks', async () => {
    phone.write(...plainLines(newWalk(), 1));
    expect(await only(429, { code: 'slow-down', error: 'x' }, { 'retry-after': '90' }).pass()).toBeGreaterThanOrEqual(90_000);
  });

  test.each([
    [200, '{"outcomes":[],"standings":[]}'],
    [200, '[]'],
    [200, ''],
    [200, '{"outcomes":[{"outcome":"stored"}],"standings":[{"walk":"x"}]}'],
    [409, '{"code":"weird"}'],
    [418, 'teapot'],
  ])('%i %s is not believed', async (status, text) => {
    phone.write(...plainLines(newWalk(), 3));
    const sync = new CrewSync({
      wire: {
        fetch: async (path) => (path.includes('/lines') ? new Response(text, { status }) : new Response('{"standings":[]}')),
        token: () => 'x',
      },
      store: phone,
      now: () => 0,
      random: () => 0,
      isOnline: () => true,
      wait: async () => undefined,
    });
    await sync.pass();
    expect(sync.state).toMatchObject({ code: 'waiting', problem: { code: expect.stringMatching(/answer-not-understood|no-signal/) } });
    expect(phone.sent.size).toBe(0);
  });

  test('after a revoked token, joining again sends what was kept', async () => {
    const lost = await hub.member(owner, 'tech', 'Lost');
    const lines = plainLines(newWalk(), 5);
    phone.write(...lines);
    await owner.ask('DELETE', `/crew/devices/${lost.device}`);
    let token = lost.secret;
    const { sync } = syncOf([], { token: () => token });
    await sync.pass();
    expect(sync.state).toMatchObject({ code: 'outside', problem: { code: 'device-stopped' }, left: 5 });
    token = (await hub.member(owner, 'tech', 'Found')).secret;
    await sync.pass();
    expect(sync.state.code).toBe('done');
    expect(await stored(lines[0]?.walk ?? '')).toEqual(lines);
  });

  test('a storage that fails is told, and nothing is marked', async () => {
    phone.write(...plainLines(newWalk(), 2));
    phone.lines = async () => {
      throw new DOMException('no', 'InvalidStateError');
    };
    const { sync } = syncOf();
    await sync.pass();
    expect(sync.state).toMatchObject({ code: 'stuck', problem: { code: 'storage-failed', detail: 'InvalidStateError: no' } });
  });
});

describe('the loop', () => {
  test('tries by itself until everything is there, then rests, and goes on when nudged', async () => {
    const lines = plainLines(newWalk(), 6);
    phone.write(...lines.slice(0, 3));
    const { sync, waited } = syncOf(['lost', 'bad gateway', 'unanswered']);
    const states: string[] = [];
    const until = (code: string) =>
      new Promise<void>((resolve) => {
        const stop = sync.subscribe(() => {
          states.push(sync.state.code);
          if (sync.state.code === code) {
            stop();
            resolve();
          }
        });
      });
    const first = until('done');
    sync.start();
    sync.start();
    await first;
    expect(waited.length).toBeGreaterThanOrEqual(3);
    expect(states).toContain('waiting');
    phone.write(...lines.slice(3));
    const second = until('done');
    sync.nudge();
    await second;
    sync.stop();
    expect(sync.state.code).toBe('off');
    expect(await stored(lines[0]?.walk ?? '')).toEqual(lines);
  });

  test('waits longer with each try in vain, never the same for all, and no longer than some minutes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), fc.double({ min: 0, max: 0.999, noNaN: true }), (tries, random) => {
        const delay = retryDelay(tries, random);
        expect(delay).toBeGreaterThanOrEqual(500);
        expect(delay).toBeLessThanOrEqual(300_000);
        expect(retryDelay(tries + 1, random)).toBeGreaterThanOrEqual(delay);
        expect(retryDelay(tries, random, 90_000)).toBe(90_000 + delay);
      }),
      { seed: 3 },
    );
    expect(retryDelay(3, 0.1)).not.toBe(retryDelay(3, 0.9));
  });
});

describe('editions', () => {
  test('come down checked; a newer one and a withdrawal are told, and no walk is moved', async () => {
    const [one, two] = [editionTitled('One'), editionTitled('Two')];
    const published = async (hash: string, edition: unknown, basedOn?: string) =>
      owner.ask('POST', '/crew/editions', { json: { hash, edition, why: 'why', ...(basedOn !== undefined && { basedOn }) } });
    await published(one.hash, one.edition);
    const { sync } = syncOf();
    await untilDone(sync);
    expect(phone.listed.map(({ hash }) => hash)).toEqual([one.hash]);
    expect(phone.kept.get(one.hash)).toEqual(JSON.parse(JSON.stringify(one.edition)));
    await published(two.hash, two.edition, one.hash);
    await owner.ask('POST', `/crew/editions/${one.hash}/withdrawal`, { json: { why: 'a wrong band' } });
    await untilDone(sync);
    expect(phone.kept.has(one.hash)).toBe(true);
    const walks = [
      { walk: 'a', edition: one.hash, tree: EDITION.root },
      { walk: 'b', edition: two.hash, tree: EDITION.root },
    ];
    expect(editionNotices(walks, { entries: [...phone.listed], withdrawn: [...phone.withdrawn] })).toEqual([
      { walk: 'a', code: 'edition-withdrawn', why: 'a wrong band', byName: 'Ona Owner', at: hub.now() },
      { walk: 'a', code: 'newer-edition', hash: two.hash, title: 'Two', why: 'why', byName: 'Ona Owner' },
    ]);
  });

  test('that are not what their hash names are not kept', async () => {
    const wire = {
      fetch: async (path: string, init?: RequestInit) => {
        const response = await new BadNetwork(() => hub).fetch(path, init);
        return /editions\/[0-9a-f]{64}$/.test(path) ? new Response(JSON.stringify(editionTitled('Forged').edition)) : response;
      },
      token: () => tech.secret,
    };
    const sync = new CrewSync({ wire, store: phone, now: () => 0, random: () => 0, isOnline: () => true, wait: async () => undefined });
    await sync.pass();
    expect([phone.kept.size, phone.listed.length]).toEqual([0, 0]);
  });

  test('that the hub does not know are given to it with the walk', async () => {
    const lines = closedWalk(newWalk());
    phone.write(...lines);
    phone.kept.set(EDITION_HASH, EDITION);
    await hub.store.db.updateTable('walk').set({ tree: null }).where('edition', '=', EDITION_HASH).execute();
    await hub.store.db.deleteFrom('edition').where('hash', '=', EDITION_HASH).execute();
    await untilDone(syncOf().sync);
    const read = await tech.ask('GET', `/crew/walks/${lines[0]?.walk}/lines`);
    expect(read.body.summary).toMatchObject({ outcome: 'fixed', flags: [], tree: EDITION.root });
  });
});

describe('photos', () => {
  test('follow their walk, and one that is refused for good is not sent for ever', async () => {
    const lines = plainLines(newWalk(), 2);
    phone.write(...lines);
    const walk = lines[0]?.walk ?? '';
    phone.photos.push({ id: 'p1', walk, picture: PNG });
    phone.photos.push({ id: 'p2', walk, picture: new Blob(['no picture'], { type: 'image/png' }) });
    await untilDone(syncOf(['well', 'well', 'lost', 'unanswered']).sync);
    expect([...phone.photosSent]).toEqual([
      ['p1', undefined],
      ['p2', 'not-a-photo'],
    ]);
    expect((await tech.ask('GET', `/crew/walks/${walk}/photos/p1`)).status).toBe(200);
  });

  test('of a walk whose first line is not up yet wait for it, and go up in the next pass', async () => {
    const lines = plainLines(newWalk(), 2);
    const walk = lines[0]?.walk ?? '';
    const { unsentPhotos } = phone;
    // Taken once the lines of this pass are up.
    phone.unsentPhotos = async (most) => {
      phone.unsentPhotos = unsentPhotos;
      phone.write(...lines);
      phone.photos.push({ id: 'new', walk, picture: PNG });
      return phone.unsentPhotos(most);
    };
    const { sync } = syncOf();
    await sync.pass();
    expect([sync.state.code, phone.photosSent.size]).toEqual(['done', 0]);
    await sync.pass();
    expect([...phone.photosSent]).toEqual([['new', undefined]]);
    expect((await tech.ask('GET', `/crew/walks/${walk}/photos/new`)).status).toBe(200);
  });
});
