import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { EditionPicture } from '../../engine/review/index.ts';
import type { WalkLine } from '../../engine/walk/index.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';
import { crewPicture } from '../../shared/crew/store/picture-store.ts';
import { hubClient } from '../../shared/sync/hub-client.ts';
import { BadNetwork } from './testing/bad-network.ts';
import { eachStore } from './testing/each-store.ts';
import { HOOK_TIME } from './testing/hook-time.ts';
import { HubUnderTest, type Member } from './testing/hub-under-test.ts';
import { closedWalk, EDITION, EDITION_HASH, editionTitled, plainLines, WALKABLE } from './testing/sample-walks.ts';

/** A call that ends fixed, with a jump back to a step that was done and a step taken back. */
function wanderingWalk(id: string, drill = false): readonly WalkLine[] {
  const driver = new WalkDriver(WALKABLE, id);
  driver
    .must({ type: 'opened', ...(drill && { drill }) })
    .readCautions()
    .must({ type: 'went-on' });
  driver.tell('wiring', 'own').read('27').must({ type: 'stepped-back', to: 1 }).read('27').act().look('runs');
  driver.must({ type: 'found' }, { type: 'repaired', done: true }).putAllBack();
  driver.must({ type: 'rechecked', saw: 'runs' }, { type: 'closed' });
  return driver.lines;
}

eachStore((fresh) => {
  let hub: HubUnderTest;
  let owner: Member;
  let tech: Member;
  let trainer: Member;
  beforeAll(async () => {
    hub = await HubUnderTest.open(await fresh());
    owner = await hub.owner();
    tech = await hub.member(owner, 'tech', 'Tam');
    trainer = await hub.member(owner, 'trainer', 'Tess');
    await owner.ask('POST', '/crew/editions', { json: { hash: EDITION_HASH, edition: EDITION, why: 'first' } });
  }, HOOK_TIME);
  afterAll(() => hub?.close());

  const send = async (lines: readonly unknown[]): Promise<void> =>
    expect((await tech.ask('POST', '/crew/walks/lines', { json: { lines, tails: [] } })).status).toBe(200);
  const confirm = (walk: string, json: object, who = trainer) => who.ask('POST', `/crew/walks/${walk}/confirmations`, { json });
  const list = async (query: string): Promise<{ walk: string; confirmation?: object; minutes?: number }[]> =>
    (await trainer.ask('GET', `/crew/walks?most=200&${query}`)).body.walks;
  const ids = async (query: string): Promise<string[]> => (await list(query)).map(({ walk }) => walk).sort();
  const picture = async (query = ''): Promise<EditionPicture[]> => (await trainer.ask('GET', `/crew/trees/dry-pad/picture?${query}`)).body.editions;

  describe('a picture of the crew', () => {
    test('of a tree that nobody has walked is empty', async () => {
      expect((await trainer.ask('GET', '/crew/trees/none/picture')).body).toEqual({ tree: 'none', editions: [] });
    });

    test('counts what closed calls did at each step, and leaves drills out', async () => {
      await send(closedWalk('pic-1'));
      await send(wanderingWalk('pic-2'));
      await send(wanderingWalk('pic-drill', true));
      await send(plainLines('pic-open', 3));
      const [only, ...others] = await picture();
      expect(others).toEqual([]);
      expect(only).toMatchObject({ edition: EDITION_HASH, walks: 3, closed: 2, outcomes: { fixed: 2 } });
      expect(only?.findings).toEqual([{ tree: 'dry-pad', step: 'contact-open', walks: 2, held: 0, cameBack: 0 }]);
      const step = (name: string) => only?.steps.find((one) => one.step === name);
      const went = (name: string): number => Object.values(step(name)?.ways ?? {}).reduce((a, b) => a + b, 0);
      expect(step('power')).toMatchObject({ tree: 'dry-pad', stays: 3, steppedBack: 0, jumpedTo: 0, couldNot: 0 });
      expect(step('close-by-hand')).toMatchObject({ stays: 3, steppedBack: 1 });
      expect([went('power'), went('close-by-hand')]).toEqual([3, 2]);
      // One tick a line: what the walks took by their own lines, and what the bins count.
      const minutes = (await list('closed=yes&drill=no')).reduce((sum, walk) => sum + (walk.minutes ?? 0), 0);
      expect(only?.minutesSum).toBeCloseTo(minutes, 9);
      expect(minutes).toBeCloseTo((closedWalk('pic-1').length + wanderingWalk('pic-2').length - 2) / 60, 9);
      for (const { minutes: bins, stays } of only?.steps ?? []) expect(Object.values(bins).reduce((a, b) => a + b, 0)).toBe(stays);
    });

    test('can be cut to an edition and to a time', async () => {
      expect(await picture('from=2026-01-16')).toEqual([]);
      expect(await picture('to=2026-01-15')).toEqual([]);
      expect((await picture('from=2026-01-15&to=2026-01-16'))[0]?.walks).toBe(3);
      expect(await picture(`edition=${'a'.repeat(64)}`)).toEqual([]);
      expect((await picture(`edition=${EDITION_HASH}`))[0]?.closed).toBe(2);
      expect((await trainer.ask('GET', '/crew/trees/dry-pad/picture?from=yesterday')).body.code).toBe('not-understood');
    });

    test('has editions oldest first', async () => {
      const { edition, hash } = editionTitled('Another title');
      hub.time += 60_000;
      await owner.ask('POST', '/crew/editions', { json: { hash, edition, basedOn: EDITION_HASH, why: 'second' } });
      const driver = new WalkDriver(edition, 'pic-second');
      driver.must({ type: 'opened' });
      await send(driver.lines);
      expect((await picture()).map((one) => one.edition)).toEqual([EDITION_HASH, hash]);
    });

    test('is the same in however many parts it is counted', async () => {
      const openedAt = (walk: string, opened: string) => hub.store.db.updateTable('walk').set({ opened }).where('id', '=', walk).execute();
      await openedAt('pic-2', '2026-01-15T09:00:00.001Z');
      await openedAt('pic-open', '2026-01-15T10:00:00.000Z');
      // Sums of minutes may differ by the order in which they are added up.
      const counted = async (atOnce: number, from?: string) =>
        JSON.stringify(await crewPicture(hub.store, 'dry-pad', from === undefined ? {} : { from }, atOnce), (key, value) =>
          key === 'minutesSum' ? (value as number).toFixed(9) : value,
        );
      const whole = await counted(Number.POSITIVE_INFINITY);
      expect(whole).toContain('"walks":3,"closed":2');
      for (const atOnce of [1, 2, 3, 1000]) expect(await counted(atOnce)).toBe(whole);
      expect(await counted(1, '2026-01-15T09:30:00Z')).toContain('"walks":1,"closed":0');
    });

    test('has each stay once, however often a walk is summed up', async () => {
      const before = await hub.store.db.selectFrom('walk_step').selectAll().where('walk', '=', 'pic-1').execute();
      expect(before.length).toBeGreaterThan(3);
      await trainer.ask('GET', '/crew/walks/pic-1/lines');
      await hub.store.db.updateTable('walk').set({ summed: 0 }).where('id', '=', 'pic-1').execute();
      await trainer.ask('GET', '/crew/walks');
      expect(await hub.store.db.selectFrom('walk_step').selectAll().where('walk', '=', 'pic-1').execute()).toEqual(before);
    });
  });

  describe('what was learnt of a finding', () => {
    test('is added to, and the newest of it holds', async () => {
      await send(closedWalk('held-1'));
      expect(await ids('confirmed=open')).toContain('held-1');
      const first = await confirm('held-1', { held: true, note: 'Still dry a week later: no.' });
      expect(first.status).toBe(201);
      expect(first.body).toMatchObject({ walk: 'held-1', held: true, person: trainer.person, personName: 'Tess' });
      expect(await ids('confirmed=yes')).toEqual(['held-1']);
      await confirm('held-1', { held: false, bench: 'pad', fault: 'coil-open' }, owner);
      expect(await ids('confirmed=yes')).toEqual([]);
      expect((await list('confirmed=no'))[0]).toMatchObject({ walk: 'held-1', confirmation: { held: false, bench: 'pad', fault: 'coil-open' } });
      const { confirmations } = (await trainer.ask('GET', '/crew/walks/held-1/confirmations')).body;
      expect(confirmations.map(({ held }: { held: boolean }) => held)).toEqual([false, true]);
      await confirm('held-1', {});
      expect(await ids('confirmed=open')).toContain('held-1');
      expect((await list('confirmed=open')).find(({ walk }) => walk === 'held-1')?.confirmation).toBeUndefined();
    });

    test('outlives what is summed up and sent later', async () => {
      await send(closedWalk('held-2'));
      await confirm('held-2', { held: true });
      await send(closedWalk('held-2'));
      await trainer.ask('GET', '/crew/walks/held-2/lines');
      expect(await ids('confirmed=yes')).toEqual(['held-2']);
    });

    test('is in the picture and in the count of faults, once a walk, drills left out', async () => {
      await send(wanderingWalk('held-drill', true));
      for (const walk of ['held-2', 'held-2', 'pic-1']) await confirm(walk, { held: true, bench: 'pad', fault: 'contact-stuck' });
      await confirm('pic-2', { held: false, bench: 'pad', fault: 'coil-open' });
      await confirm('held-1', { held: false });
      await confirm('held-drill', { held: true, bench: 'pad', fault: 'contact-stuck' });
      expect((await trainer.ask('GET', '/crew/confirmed-faults')).body.faults).toEqual([
        { bench: 'pad', fault: 'contact-stuck', times: 2 },
        { bench: 'pad', fault: 'coil-open', times: 1 },
      ]);
      expect((await picture(`edition=${EDITION_HASH}`))[0]?.findings).toEqual([
        { tree: 'dry-pad', step: 'contact-open', walks: 4, held: 2, cameBack: 2 },
      ]);
    });

    test('of a walk that is not there is refused, and so is what is no confirmation', async () => {
      expect((await confirm('nowhere', { held: true })).body.code).toBe('not-there');
      expect((await trainer.ask('GET', '/crew/walks/nowhere/confirmations')).body.code).toBe('not-there');
      for (const json of [{ held: 'yes' }, { held: true, note: 'x'.repeat(501) }, { holds: true }, []])
        expect((await confirm('held-1', json)).body.code).toBe('not-understood');
      expect((await trainer.ask('GET', '/crew/walks/held-2/confirmations')).body.confirmations).toHaveLength(3);
    });

    test('is written down with who said it, and cannot be changed or taken away', async () => {
      const { entries } = (await owner.ask('GET', '/crew/audit')).body;
      expect(entries.find(({ what }: { what: string }) => what === 'confirmed')).toMatchObject({ person: trainer.person, about: 'held-drill' });
      await expect(hub.store.db.updateTable('confirmation').set({ held: 1 }).execute()).rejects.toThrow('append-only');
      await expect(hub.store.db.deleteFrom('confirmation').execute()).rejects.toThrow('append-only');
    });

    test('said by many at once is kept of all', async () => {
      await send(closedWalk('held-many'));
      const answers = await Promise.all(
        Array.from({ length: 20 }, (_, n) => confirm('held-many', { held: n % 2 === 0 }, n % 3 === 0 ? owner : trainer)),
      );
      expect(answers.map(({ status }) => status)).toEqual(answers.map(() => 201));
      expect((await trainer.ask('GET', '/crew/walks/held-many/confirmations')).body.confirmations).toHaveLength(20);
    });
  });

  test('the list can be cut to a finding', async () => {
    expect(await ids('finding=dry-pad/contact-open&drill=no')).toEqual(['held-1', 'held-2', 'held-many', 'pic-1', 'pic-2']);
    expect(await ids('finding=dry-pad/coil-open')).toEqual([]);
    expect((await trainer.ask('GET', '/crew/walks?finding=contact-open')).body.code).toBe('not-understood');
  });

  test('the client asks for all of it', async () => {
    const client = hubClient({ fetch: new BadNetwork(() => hub).fetch, token: () => trainer.secret });
    expect(await client.confirm('pic-2', { held: true, bench: 'pad', fault: 'contact-stuck' })).toMatchObject({ ok: true, value: { held: true } });
    expect(await client.confirmations('pic-2')).toMatchObject({ ok: true, value: { confirmations: [{ held: true }, { held: false }] } });
    expect(await client.picture('dry-pad', { from: '2026-01-15', edition: EDITION_HASH })).toMatchObject({ ok: true, value: { tree: 'dry-pad' } });
    expect(await client.confirmedFaults()).toEqual({ ok: true, value: { faults: [{ bench: 'pad', fault: 'contact-stuck', times: 3 }] } });
    expect(await client.walks({ confirmed: 'yes', finding: 'dry-pad/contact-open', drill: 'no' })).toMatchObject({ ok: true });
  });
});
