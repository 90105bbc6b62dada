import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { WalkLine } from '../../engine/walk/index.ts';
import type { LineOutcome } from '../../shared/sync/wire/walk-wire.ts';
import { eachStore } from './testing/each-store.ts';
import { HOOK_TIME } from './testing/hook-time.ts';
import { type Answer, HubUnderTest, type Member } from './testing/hub-under-test.ts';
import { closedWalk, EDITION, EDITION_HASH, headOf, plainLines } from './testing/sample-walks.ts';

const PNG = Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), Buffer.from('picture')]);
const sha = (body: Buffer): string => createHash('sha256').update(body).digest('hex');

eachStore((fresh) => {
  let hub: HubUnderTest;
  let owner: Member;
  let tech: Member;
  let other: Member;
  let trainer: Member;
  let count = 0;
  const newWalk = (): string => `walk-${count++}`;
  beforeAll(async () => {
    hub = await HubUnderTest.open(await fresh());
    owner = await hub.owner();
    tech = await hub.member(owner, 'tech', 'Tam');
    other = await hub.member(owner, 'tech', 'Oli');
    trainer = await hub.member(owner, 'trainer', 'Tess');
    await owner.ask('POST', '/crew/editions', { json: { hash: EDITION_HASH, edition: EDITION, why: 'first' } });
  }, HOOK_TIME);
  afterAll(() => hub?.close());

  const send = (lines: readonly unknown[], who = tech, tails: readonly object[] = []): Promise<Answer> =>
    who.ask('POST', '/crew/walks/lines', { json: { lines, tails } });
  const outcomes = (answer: Answer): string[] => answer.body.outcomes.map(({ outcome }: LineOutcome) => outcome);
  const stored = async (walk: string): Promise<WalkLine[]> =>
    (await hub.store.db.selectFrom('walk_line').select('text').where('walk', '=', walk).orderBy('seq').execute()).map(({ text }) => JSON.parse(text));

  describe('an upload', () => {
    test('is taken line by line, and the same again changes nothing', async () => {
      const lines = closedWalk(newWalk());
      const once = await send(lines);
      expect([once.status, new Set(outcomes(once))]).toEqual([200, new Set(['stored'])]);
      const twice = await send([...lines, ...lines]);
      expect([twice.status, new Set(outcomes(twice))]).toEqual([200, new Set(['already'])]);
      expect(await stored(lines[0]?.walk ?? '')).toEqual(lines);
      expect(twice.body.standings[0]).toEqual({ walk: lines[0]?.walk, length: lines.length, head: headOf(lines), lines: lines.length, flags: [] });
    });

    test('in any order, in any pieces, any number of times gives the same walk', { timeout: 180_000 }, async () => {
      await fc.assert(
        fc.asyncProperty(
          fc.integer({ min: 1, max: 14 }).chain((n) =>
            fc.record({
              order: fc.shuffledSubarray(
                Array.from({ length: n * 2 }, (_, k) => k % n),
                { minLength: n * 2 },
              ),
              cuts: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 8 }),
              n: fc.constant(n),
            }),
          ),
          async ({ order, cuts, n }) => {
            const id = newWalk();
            const lines = plainLines(id, n);
            const seen = new Set<number>();
            for (let [at, turn] = [0, 0]; at < order.length; turn += 1) {
              const piece = order.slice(at, at + (cuts[turn % cuts.length] ?? 1));
              at += piece.length;
              const answer = await send(piece.map((k) => lines[k]));
              expect(answer.status).toBe(200);
              const inThis = new Set<number>();
              for (const [index, k] of piece.entries()) {
                expect(outcomes(answer)[index]).toBe(seen.has(k) || inThis.has(k) ? 'already' : 'stored');
                inThis.add(k);
              }
              for (const k of inThis) seen.add(k);
              let whole = 0;
              while (seen.has(whole)) whole += 1;
              expect(answer.body.standings[0]).toMatchObject({ length: whole, head: headOf(lines.slice(0, whole)), lines: seen.size });
              expect(answer.body.standings[0].flags).toEqual(
                whole < Math.max(...seen) + 1 ? expect.arrayContaining(['gap']) : expect.not.arrayContaining(['gap', 'forked']),
              );
            }
            expect(await stored(id)).toEqual(lines);
          },
        ),
        { seed: 5, numRuns: 40 },
      );
    });

    test('of many walks at once is one answer, a line for a line', async () => {
      const walks = Array.from({ length: 250 }, () => plainLines(newWalk(), 2));
      const answer = await send(walks.flat());
      expect(outcomes(answer)).toEqual(Array.from({ length: 500 }, () => 'stored'));
      expect(answer.body.standings).toHaveLength(250);
    });

    test('from many devices at once loses nothing and waits for nobody for ever', async () => {
      const ids = Array.from({ length: 6 }, newWalk);
      const walks = ids.map((id) => plainLines(id, 8));
      const uploads = Array.from({ length: 24 }, (_, n) => {
        const some = walks.flatMap((lines, w) => lines.filter((line) => (line.seq * 7 + w * 3 + n) % 3 !== 0));
        return n % 2 === 0 ? some : some.reverse();
      });
      const answers = await Promise.all(uploads.map((lines, n) => send(lines, n % 3 === 0 ? other : tech)));
      expect(answers.map(({ status }) => status)).toEqual(answers.map(() => 200));
      for (const [w, id] of ids.entries()) expect(await stored(id)).toEqual(walks[w]);
    });
  });

  describe('a line that cannot be', () => {
    const id = () => newWalk();
    test.each([
      ['no object', () => 'text', 'not-a-line'],
      ['null', () => null, 'not-a-line'],
      ['more than a line', () => ({ ...plainLines(id(), 1)[0], more: 1 }), 'not-a-line'],
      ['an event that is none', () => ({ ...plainLines(id(), 1)[0], event: { type: 'wiped' } }), 'not-a-line'],
      ['another walk’s name put on it', () => ({ ...plainLines(id(), 1)[0], walk: 'stolen' }), 'line-changed'],
      ['another time', () => ({ ...plainLines(id(), 1)[0], time: '2030-01-01T00:00:00.000Z' }), 'line-changed'],
      ['another hash', () => ({ ...plainLines(id(), 1)[0], hash: 'f'.repeat(64) }), 'line-changed'],
      ['a beginning that follows something', () => plainLines(id(), 1, { before: 'a'.repeat(64) })[0], 'chain-broken'],
      ['a follower of nothing', () => plainLines(id(), 1, { from: 3 })[0], 'chain-broken'],
      ['a number beyond all walks', () => plainLines(id(), 1, { from: 5_000_000, before: 'a'.repeat(64) })[0], 'too-far'],
      ['a name with a NUL', () => plainLines('a\u0000b', 1)[0], 'not-a-line'],
      ['a name with half a character', () => ({ ...plainLines(id(), 1)[0], walk: 'a\ud800' }), 'not-a-line'],
      ['a text with half a character', () => ({ ...plainLines(id(), 1)[0], event: { type: 'noted', text: '\ud800' } }), 'not-a-line'],
    ])('is refused by itself: %s', async (_what, make, fault) => {
      const good = plainLines(newWalk(), 2);
      const answer = await send([good[0], make(), good[1]]);
      expect(answer.status).toBe(422);
      expect(answer.body.outcomes).toEqual([{ outcome: 'stored' }, { outcome: 'refused', fault, detail: expect.any(String) }, { outcome: 'stored' }]);
      expect(await stored(good[0]?.walk ?? '')).toEqual(good);
    });
  });

  describe('a log carried on in two places', () => {
    test('is refused as such, kept whole, and marked', async () => {
      const id = newWalk();
      const common = plainLines(id, 3);
      const mine = [...common, ...plainLines(id, 3, { from: 3, before: headOf(common), text: 'mine ' })];
      const theirs = [...common, ...plainLines(id, 2, { from: 3, before: headOf(common), text: 'theirs ' })];
      expect((await send(mine)).status).toBe(200);
      const answer = await send(theirs);
      expect(answer.status).toBe(409);
      expect(outcomes(answer)).toEqual(['already', 'already', 'already', 'forked', 'forked']);
      expect(answer.body.standings[0]).toMatchObject({ length: 6, head: headOf(mine), lines: 8, flags: ['forked'] });
      // Sent again: all there, nothing new.
      expect(outcomes(await send(theirs))).toEqual(Array.from({ length: 5 }, () => 'already'));
      const read = (await trainer.ask('GET', `/crew/walks/${id}/lines`)).body;
      expect(read.lines).toEqual(mine);
      expect(read.aside).toEqual(theirs.slice(3));
      const { entries } = (await owner.ask('GET', '/crew/audit')).body;
      expect(entries[0]).toMatchObject({ what: 'fork-kept', about: id, details: { lines: 2 } });
    });

    test('keeps every line of both, in whatever order they come', { timeout: 180_000 }, async () => {
      await fc.assert(
        fc.asyncProperty(fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6, 7, 8], { minLength: 9 }), async (order) => {
          const id = newWalk();
          const common = plainLines(id, 3);
          const a = plainLines(id, 3, { from: 3, before: headOf(common), text: 'a' });
          const b = plainLines(id, 3, { from: 3, before: headOf(common), text: 'b' });
          const all = [...common, ...a, ...b];
          for (const k of order) await send([all[k]]);
          const there = await stored(id);
          expect(there.map(({ hash }) => hash).sort()).toEqual(all.map(({ hash }) => hash).sort());
          const { body } = await tech.ask('POST', '/crew/walks/standings', { json: { walks: [id] } });
          expect(body.standings[0]).toMatchObject({ length: 6, lines: 9 });
          expect([headOf(a), headOf(b)]).toContain(body.standings[0].head);
          expect(body.standings[0].flags).toContain('forked');
        }),
        { seed: 5, numRuns: 30 },
      );
    });

    test('has an end: a flood of forks is refused', { timeout: 120_000 }, async () => {
      const id = newWalk();
      await send(plainLines(id, 1));
      const flood = Array.from({ length: 2_400 }, (_, n) => plainLines(id, 1, { from: 1, before: headOf(plainLines(id, 1)), text: `${n} ` })[0]);
      const got: string[] = [];
      for (let at = 0; at < flood.length; at += 400) got.push(...outcomes(await send(flood.slice(at, at + 400))));
      expect(got.filter((one) => one === 'forked')).toHaveLength(2_000);
      expect(got.filter((one) => one === 'refused')).toHaveLength(399);
    });
  });

  describe('what a device tells of its walk', () => {
    test('shows a tail that was cut off, until it comes', async () => {
      const id = newWalk();
      const lines = plainLines(id, 5);
      const tail = { walk: id, length: 5, head: headOf(lines) };
      expect((await send(lines.slice(0, 3), tech, [tail])).body.standings[0].flags).toEqual(['cut-off']);
      expect((await send(lines.slice(3), tech, [tail])).body.standings[0].flags).toEqual([]);
    });

    test('shows a log that has become shorter', async () => {
      const id = newWalk();
      const lines = plainLines(id, 5);
      await send(lines, tech, [{ walk: id, length: 5, head: headOf(lines) }]);
      const answer = await send([], tech, [{ walk: id, length: 2, head: lines[1]?.hash }]);
      expect(answer.body.standings[0].flags).toEqual(['shrunk']);
    });

    test('is taken from the devices of its own tech alone', async () => {
      const id = newWalk();
      await send(plainLines(id, 2));
      expect((await send([], other, [{ walk: id, length: 9, head: 'a'.repeat(64) }])).body.standings).toEqual([]);
      expect((await send([], tech, [])).body).toEqual({ outcomes: [], standings: [] });
      expect((await tech.ask('POST', '/crew/walks/standings', { json: { walks: [id] } })).body.standings[0].flags).toEqual([]);
    });
  });

  describe('the crew’s list', () => {
    test('has what a call came to, from replaying it', async () => {
      const id = newWalk();
      await send(closedWalk(id, 'Tam Typed', '7 Oak'));
      const { walks } = (await trainer.ask('GET', `/crew/walks?person=${tech.person}&outcome=fixed&closed=yes`)).body;
      expect(walks.find(({ walk }: { walk: string }) => walk === id)).toMatchObject({
        personName: 'Tam',
        by: 'Tam Typed',
        site: '7 Oak',
        phase: 'closed',
        outcome: 'fixed',
        finding: 'The contact does not close',
        title: 'No water at the pad',
        opened: '2026-01-15T09:00:00.000Z',
        flags: [],
      });
    });

    test('says that a log does not replay', async () => {
      const id = newWalk();
      await send(plainLines(id, 3));
      await trainer.ask('GET', `/crew/walks/${id}/lines`);
      const { walks } = (await trainer.ask('GET', '/crew/walks?flagged=yes&most=200')).body;
      const twice = closedWalk(id);
      expect(twice.length).toBeGreaterThan(3);
      // `noted` is always taken; a tale that the tree does not allow is not.
      expect(walks.map(({ walk }: { walk: string }) => walk)).not.toContain(id);
      const [opened] = plainLines(`${id}x`, 1);
      if (!opened) throw new Error('no line');
      const { canonicalHash } = await import('../../engine/walk/index.ts');
      const bad = { ...opened, seq: 1, before: opened.hash, event: { type: 'closed' as const } };
      const { hash: _hash, ...unsealed } = bad;
      await send([opened, { ...unsealed, hash: canonicalHash(unsealed) }]);
      const read = (await trainer.ask('GET', `/crew/walks/${id}x/lines`)).body;
      expect(read.summary.flags).toEqual(['does-not-replay']);
      expect(read.lines).toHaveLength(2);
    });

    test('comes page by page, each walk once, the newest call first', async () => {
      const seen: { walk: string; opened: string }[] = [];
      for (let after = ''; ; ) {
        const { walks, next } = (await trainer.ask('GET', `/crew/walks?most=37${after === '' ? '' : `&after=${after}`}`)).body;
        seen.push(...walks);
        if (next === undefined) break;
        after = next;
      }
      const all = await hub.store.db.selectFrom('walk').select('id').execute();
      expect(seen.map(({ walk }) => walk).sort()).toEqual(all.map(({ id }) => id).sort());
      expect(seen.length).toBeGreaterThan(250);
      for (const [n, { opened }] of seen.entries()) if (n > 0) expect(opened <= (seen[n - 1]?.opened ?? '')).toBe(true);
    });

    test('can be cut to a time', async () => {
      const of = async (query: string): Promise<number> => (await trainer.ask('GET', `/crew/walks?${query}`)).body.walks.length;
      expect(await of('from=2026-01-16')).toBe(0);
      expect(await of('from=2026-01-15&to=2026-01-16T00:00:00Z')).toBe(50);
      expect(await of('to=2026-01-15')).toBe(0);
    });

    test('shows a tech their own walks and nobody else’s', async () => {
      const id = newWalk();
      await send(closedWalk(id), tech);
      const { walks } = (await other.ask('GET', `/crew/walks?person=${tech.person}`)).body;
      expect(walks).toEqual([]);
      for (const path of [`/crew/walks/${id}/lines`, `/crew/walks/${id}/photos/p`]) expect((await other.ask('GET', path)).status).toBe(404);
      expect((await other.ask('POST', '/crew/walks/standings', { json: { walks: [id] } })).body.standings).toEqual([]);
      // A line sent to it opens nothing either; it is kept and shows.
      const [stray] = plainLines(id, 1, { from: 1, before: 'b'.repeat(64) });
      expect(outcomes(await send([stray], other))).toEqual(['forked']);
      expect((await other.ask('GET', `/crew/walks/${id}/lines`)).status).toBe(404);
      expect((await tech.ask('POST', '/crew/walks/standings', { json: { walks: [id] } })).body.standings[0].flags).toEqual([
        'forked',
        'several-hands',
      ]);
    });
  });

  describe('the stream of changes', () => {
    const readAll = async (after: number): Promise<{ walks: string[]; cursor: number }> => {
      const walks: string[] = [];
      for (let cursor = after; ; ) {
        const { body } = await trainer.ask('GET', `/crew/changes?after=${cursor}&most=50`);
        walks.push(...body.walks.map(({ walk }: { walk: string }) => walk));
        cursor = body.cursor;
        if (!body.more && body.walks.length === 0) return { walks, cursor };
      }
    };

    test('tells each walk that has changed since, once, and then nothing', async () => {
      const { cursor } = await readAll(0);
      const [one, two] = [plainLines(newWalk(), 3), plainLines(newWalk(), 3)];
      await send(one);
      await send(two.slice(0, 1));
      await send(two.slice(1));
      const next = await readAll(cursor);
      expect(next.walks.sort()).toEqual([one[0]?.walk, two[0]?.walk].sort());
      expect((await readAll(next.cursor)).walks).toEqual([]);
    });

    test('misses no walk that is written while it is read', { timeout: 120_000 }, async () => {
      let { cursor } = await readAll(0);
      const ids = Array.from({ length: 60 }, newWalk);
      const told = new Set<string>();
      const writing = Promise.all(ids.map((id, n) => send(plainLines(id, 2), n % 2 === 0 ? tech : other)));
      let done = false;
      // Also where an upload fails: the reading would never end, and what failed would not be told.
      void Promise.allSettled([writing]).then(() => {
        done = true;
      });
      while (!done) {
        const { body } = await trainer.ask('GET', `/crew/changes?after=${cursor}&most=7`);
        for (const { walk } of body.walks) told.add(walk);
        cursor = body.cursor;
        // As between two requests over a network: an injected one never lets the loop go round.
        await new Promise((resolve) => setImmediate(resolve));
      }
      await writing;
      for (const walk of (await readAll(cursor)).walks) told.add(walk);
      expect(ids.filter((id) => !told.has(id))).toEqual([]);
    });
  });

  describe('a photo', () => {
    const put = (who: Member, body: Buffer, walk: string, photo: string, { hash = sha(body), type = 'image/png' } = {}) =>
      who.ask('PUT', `/crew/photos/${hash}?walk=${walk}&photo=${photo}`, { raw: body, type });

    test('is kept under its hash, once, and shown to who may see the walk', async () => {
      const id = newWalk();
      await send(plainLines(id, 1));
      expect((await put(tech, PNG, id, 'p1')).status).toBe(200);
      expect((await put(tech, PNG, id, 'p1')).status).toBe(200);
      expect((await put(tech, PNG, id, 'p2')).status).toBe(200);
      const shown = await trainer.ask('GET', `/crew/walks/${id}/photos/p1`);
      expect([shown.status, shown.headers['content-type'], shown.headers['x-content-type-options']]).toEqual([200, 'image/png', 'nosniff']);
      expect(await hub.store.db.selectFrom('photo').select('hash').where('hash', '=', sha(PNG)).execute()).toHaveLength(1);
      const row = await hub.store.db.selectFrom('photo').select('body').where('hash', '=', sha(PNG)).executeTakeFirstOrThrow();
      expect(Buffer.from(row.body)).toEqual(PNG);
    });

    test('is refused where it is none, is not its hash, stands in for another, or belongs to nobody’s walk', async () => {
      const id = newWalk();
      await send(plainLines(id, 1));
      const html = Buffer.from('<script>alert(1)</script>');
      expect((await put(tech, html, id, 'p')).body.code).toBe('not-a-photo');
      expect((await put(tech, html, id, 'p', { type: 'text/html' })).body.code).toBe('wrong-type');
      expect((await put(tech, html, id, 'p', { type: 'image/svg+xml' })).body.code).toBe('wrong-type');
      expect((await put(tech, PNG, id, 'p', { hash: 'a'.repeat(64) })).body.code).toBe('not-its-hash');
      expect((await put(tech, PNG, id, 'p', { hash: '..%2f..%2fetc' })).body.code).toBe('not-understood');
      expect((await put(other, PNG, id, 'p')).body.code).toBe('not-there');
      expect((await put(tech, PNG, 'no-walk', 'p')).body.code).toBe('not-there');
      await put(tech, PNG, id, 'p');
      expect((await put(tech, Buffer.concat([PNG, PNG]), id, 'p')).body.code).toBe('photo-differs');
      const large = Buffer.alloc(8 * 1024 * 1024 + 1, 1);
      expect((await put(tech, large, id, 'p9')).body.code).toBe('too-large');
    });
  });
});
