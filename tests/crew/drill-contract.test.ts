import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CrewSync } from '../../shared/sync/crew-sync.ts';
import { hubClient } from '../../shared/sync/hub-client.ts';
import type { GivenDrill } from '../../shared/sync/wire/drill-wire.ts';
import { BadNetwork, type Fate } from './testing/bad-network.ts';
import { eachStore } from './testing/each-store.ts';
import { HOOK_TIME } from './testing/hook-time.ts';
import { HubUnderTest, type Member } from './testing/hub-under-test.ts';
import { PhoneInMemory } from './testing/phone-in-memory.ts';
import { DRILL_EDITION, DRILL_HASH, DRILL_TASK } from './testing/sample-drill.ts';

eachStore((fresh) => {
  let hub: HubUnderTest;
  let owner: Member;
  let tech: Member;
  let other: Member;
  let trainer: Member;
  beforeAll(async () => {
    hub = await HubUnderTest.open(await fresh());
    owner = await hub.owner();
    tech = await hub.member(owner, 'tech', 'Tam');
    other = await hub.member(owner, 'tech', 'Oli');
    trainer = await hub.member(owner, 'trainer', 'Tess');
  }, HOOK_TIME);
  afterAll(() => hub?.close());

  const give = (json: object = {}, who = trainer) => who.ask('POST', '/crew/drills', { json: { task: DRILL_TASK, ...json } });
  const given = async (who: Member): Promise<string[]> => (await who.ask('GET', '/crew/drills')).body.drills.map(({ task }: GivenDrill) => task.id);
  const put = (who: Member, drill: string, run: { id: string }, id = run.id) => who.ask('PUT', `/crew/drills/${drill}/runs/${id}`, { json: { run } });

  test('an edition that the hub does not have is asked for, and a trainer may put it there', async () => {
    expect((await give()).body.code).toBe('edition-unknown');
    // A tech's phone may not fill the hub with what nobody needs.
    expect((await tech.ask('PUT', `/crew/editions/${DRILL_HASH}`, { json: DRILL_EDITION })).body.code).toBe('not-there');
    expect((await trainer.ask('PUT', `/crew/editions/${DRILL_HASH}`, { json: DRILL_EDITION })).status).toBe(200);
    expect((await give()).status).toBe(201);
    // It is kept, and not put among what the crew walks.
    expect((await tech.ask('GET', '/crew/editions')).body.entries).toEqual([]);
    expect((await tech.ask('GET', `/crew/editions/${DRILL_HASH}`)).status).toBe(200);
  });

  test.each([
    ['a bench that there is none of', { bench: 'no-bench' }, 'unknown-bench'],
    ['a fault that there is none of', { fault: 'no-fault' }, 'unknown-fault'],
    ['a fact that there is none of', { facts: { 'no-fact': '3 V' } }, 'unknown-fact'],
    ['another tree', { tree: 'no-tree' }, 'unknown-tree'],
  ])('a drill with %s is refused, and why', async (_what, wrong, where) => {
    const answer = await give({ task: { ...DRILL_TASK, ...wrong } });
    expect([answer.status, answer.body.code, answer.body.where]).toEqual([422, 'drill-not-good', where]);
  });

  test('a drill for someone who is not there, or that is none, is refused', async () => {
    expect((await give({ people: ['nobody'] })).body.code).toBe('person-unknown');
    for (const json of [{ task: { ...DRILL_TASK, id: 'mine' } }, { task: {} }, { people: 'all' }])
      expect((await give(json)).body.code).toBe('not-understood');
  });

  test('is seen by who it is for, until it is stopped', async () => {
    const all = (await give()).body.task.id;
    const his = (await give({ people: [tech.person, tech.person] })).body.task.id;
    const both = (await give({ people: [tech.person, other.person] })).body.task.id;
    expect(await given(tech)).toEqual(expect.arrayContaining([all, his, both]));
    expect(await given(other)).not.toContain(his);
    const { drills } = (await tech.ask('GET', '/crew/drills')).body;
    expect(drills.find(({ task }: GivenDrill) => task.id === both)).toMatchObject({
      task: { ...DRILL_TASK, facts: {} },
      by: trainer.person,
      byName: 'Tess',
      people: [tech.person],
    });
    expect((await trainer.ask('DELETE', `/crew/drills/${his}`)).status).toBe(200);
    expect((await trainer.ask('DELETE', `/crew/drills/${his}`)).status).toBe(200);
    expect((await trainer.ask('DELETE', '/crew/drills/none')).body.code).toBe('not-there');
    expect(await given(tech)).not.toContain(his);
    const seen = (await trainer.ask('GET', '/crew/drills')).body.drills.find(({ task }: GivenDrill) => task.id === his);
    expect(seen).toMatchObject({ stopped: hub.now(), people: [tech.person] });
    const { entries } = (await owner.ask('GET', '/crew/audit')).body;
    expect(entries[0]).toMatchObject({ what: 'drill-stopped', about: his, person: trainer.person });
    expect(entries[1]).toMatchObject({ what: 'drill-given', about: both });
  });

  describe('a run', () => {
    test('is kept once, whatever is sent again, and is shown to its tech and to who reviews', async () => {
      const drill = (await give({ people: [tech.person, other.person] })).body.task.id;
      const run = { id: 'run-1', lines: [{ shown: 'a\u0000b \u{1F525}', mono: 1.5 }] };
      expect((await put(tech, drill, run)).status).toBe(200);
      expect((await put(tech, drill, run)).status).toBe(200);
      expect((await put(tech, drill, { ...run, lines: [] } as { id: string })).body.code).toBe('run-differs');
      // Another's of the same name is another.
      expect((await put(other, drill, { id: 'run-1' })).status).toBe(200);
      expect((await tech.ask('GET', `/crew/drills/${drill}/runs`)).body.runs).toEqual([
        { drill, run, person: tech.person, personName: 'Tam', arrived: hub.now() },
      ]);
      const { runs } = (await trainer.ask('GET', `/crew/drills/${drill}/runs`)).body;
      expect(runs.map(({ personName }: { personName: string }) => personName).sort()).toEqual(['Oli', 'Tam']);
    });

    test('of a drill that was stopped while it was done is kept', async () => {
      const drill = (await give()).body.task.id;
      await trainer.ask('DELETE', `/crew/drills/${drill}`);
      expect((await put(tech, drill, { id: 'late' })).status).toBe(200);
    });

    test('of no drill, or of another’s, or under another name, or too large, is refused', async () => {
      const drill = (await give({ people: [other.person] })).body.task.id;
      expect((await put(tech, drill, { id: 'r' })).body.code).toBe('not-there');
      expect((await put(tech, 'none', { id: 'r' })).body.code).toBe('not-there');
      expect((await tech.ask('GET', `/crew/drills/${drill}/runs`)).body.code).toBe('not-there');
      expect((await put(other, drill, { id: 'r' }, 'another')).body.code).toBe('not-understood');
      expect((await put(other, drill, { id: 'x'.repeat(81) })).body.code).toBe('not-understood');
      expect((await put(other, drill, { id: 'r', lines: 'x'.repeat(256 * 1024) } as { id: string })).body.code).toBe('too-large');
      expect((await other.ask('PUT', `/crew/drills/${drill}/runs/r`, { json: { run: [] } })).body.code).toBe('not-understood');
    });
  });

  describe('on a phone', () => {
    const phoneOf = (who: Member, phone: PhoneInMemory, fates: readonly Fate[] = []): CrewSync =>
      new CrewSync({
        wire: { fetch: new BadNetwork(() => hub, fates).fetch, token: () => who.secret },
        store: phone,
        now: () => 0,
        random: () => 0,
        isOnline: () => true,
        wait: async () => undefined,
      });

    test('drills come with their editions, go when they are stopped, and what was done arrives over a bad network, once', async () => {
      const fourth = await hub.member(owner, 'tech', 'Fay');
      const drill = (await give({ people: [fourth.person] })).body.task.id;
      const phone = new PhoneInMemory();
      const sync = phoneOf(fourth, phone);
      await sync.pass();
      expect(sync.state.code).toBe('done');
      expect(phone.given.map(({ task }) => task.id)).toContain(drill);
      expect(phone.kept.has(DRILL_HASH)).toBe(true);
      await trainer.ask('DELETE', `/crew/drills/${drill}`);
      const run = { id: 'from-fay', lines: [1, 2] };
      phone.runs.push({ id: 'from-fay', drill, run }, { id: 'of-nothing', drill: 'none', run: { id: 'of-nothing' } });
      const fates: Fate[] = ['lost', 'unanswered', 'well', 'bad gateway', 'twice', 'unanswered', 'twice'];
      const shaky = phoneOf(fourth, phone, fates);
      for (let n = 0; n < 12 && shaky.state.code !== 'done'; n += 1) await shaky.pass();
      expect(shaky.state.code).toBe('done');
      expect([...phone.runsSent]).toEqual([
        ['from-fay', undefined],
        ['of-nothing', 'not-there'],
      ]);
      expect(phone.given.map(({ task }) => task.id)).not.toContain(drill);
      const runs = (await trainer.ask('GET', `/crew/drills/${drill}/runs`)).body.runs;
      expect(runs).toEqual([expect.objectContaining({ run, personName: 'Fay' })]);
    });
  });

  test('the client asks for all of it', async () => {
    const client = hubClient({ fetch: new BadNetwork(() => hub).fetch, token: () => trainer.secret });
    const made = await client.giveDrill({ task: DRILL_TASK, people: [tech.person] });
    if (!made.ok) throw new Error(made.problem.code);
    const { id } = made.value.task;
    expect(await client.sendDrillRun(id, 'own', { id: 'own' })).toMatchObject({ ok: true });
    expect(await client.drillRuns(id)).toMatchObject({ ok: true, value: { runs: [{ run: { id: 'own' }, personName: 'Tess' }] } });
    expect(await client.stopDrill(id)).toMatchObject({ ok: true });
    expect(await client.drills()).toMatchObject({
      ok: true,
      value: { drills: expect.arrayContaining([expect.objectContaining({ stopped: hub.now() })]) },
    });
  });
});
