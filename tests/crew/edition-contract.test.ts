import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { eachStore } from './testing/each-store.ts';
import { HOOK_TIME } from './testing/hook-time.ts';
import { HubUnderTest, type Member } from './testing/hub-under-test.ts';
import { closedWalk, EDITION, EDITION_HASH, editionTitled } from './testing/sample-walks.ts';

eachStore((fresh) => {
  let hub: HubUnderTest;
  let owner: Member;
  let senior: Member;
  let tech: Member;
  beforeAll(async () => {
    hub = await HubUnderTest.open(await fresh());
    owner = await hub.owner();
    senior = await hub.member(owner, 'senior-tech', 'Sen');
    tech = await hub.member(owner, 'tech', 'Tam');
  }, HOOK_TIME);
  afterAll(() => hub?.close());

  const publish = (who: Member, one: { hash: string; edition: unknown }, basedOn?: string, why = 'better') =>
    who.ask('POST', '/crew/editions', { json: { ...one, why, changes: ['a line'], accepted: {}, ...(basedOn !== undefined && { basedOn }) } });
  const list = async (who: Member) => (await who.ask('GET', '/crew/editions')).body;

  const first = editionTitled('First');
  const second = editionTitled('Second');
  const theirs = editionTitled('Theirs');
  const mine = editionTitled('Mine');

  test('a published edition is listed for all, and is what its hash names', async () => {
    const answer = await publish(senior, first);
    expect([answer.status, answer.body.publication.number, answer.body.stood]).toEqual([201, 1, false]);
    expect((await list(tech)).entries).toEqual([
      expect.objectContaining({ hash: first.hash, title: 'First', from: 'crew', byName: 'Sen', number: 1 }),
    ]);
    const fetched = await tech.ask('GET', `/crew/editions/${first.hash}`);
    expect(fetched.body).toEqual(JSON.parse(JSON.stringify(first.edition)));
    expect(fetched.headers['cache-control']).toContain('immutable');
  });

  test('the same again changes nothing', async () => {
    const answer = await publish(owner, first, undefined, 'other reason');
    expect([answer.status, answer.body.stood, answer.body.publication.why]).toEqual([200, true, 'better']);
  });

  test('a newer one takes its place; the one before stays fetchable', async () => {
    expect((await publish(senior, second, first.hash)).status).toBe(201);
    expect((await list(tech)).entries.map(({ hash }: { hash: string }) => hash)).toEqual([second.hash]);
    expect((await tech.ask('GET', `/crew/editions/${first.hash}`)).status).toBe(200);
  });

  test('of two who publish after the same edition, the second is shown both, and then goes after the first on purpose', async () => {
    const answers = await Promise.all([publish(senior, theirs, second.hash), publish(owner, mine, second.hash)]);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
    const lost = answers.findIndex(({ status }) => status === 409);
    const [won, late] = lost === 0 ? [mine, theirs] : [theirs, mine];
    const { body } = answers[lost] ?? { body: {} };
    expect(body).toMatchObject({ code: 'head-moved', head: { hash: won.hash, number: 3 }, base: { hash: second.hash, number: 2 } });
    expect((await list(tech)).entries[0].hash).toBe(won.hash);
    const again = await publish(owner, late, won.hash);
    expect([again.status, again.body.publication.number]).toEqual([201, 4]);
    const history = (await tech.ask('GET', `/crew/trees/${EDITION.root}/publications`)).body.publications;
    expect(history.map(({ hash }: { hash: string }) => hash)).toEqual([late.hash, won.hash, second.hash, first.hash]);
  });

  test('one that was made from an edition nobody knows is told so', async () => {
    expect((await publish(owner, editionTitled('Stray'), 'e'.repeat(64))).body.code).toBe('base-unknown');
    expect((await publish(owner, editionTitled('Stray'))).body.code).toBe('head-moved');
  });

  test('one that is taken back is no longer offered, stays readable, and its tree falls back to the one before', async () => {
    const [top, before] = (await tech.ask('GET', `/crew/trees/${EDITION.root}/publications`)).body.publications;
    expect((await senior.ask('POST', `/crew/editions/${top.hash}/withdrawal`, { json: { why: 'wrong band' } })).status).toBe(200);
    const { entries, withdrawn } = await list(tech);
    expect(entries.map(({ hash }: { hash: string }) => hash)).toEqual([before.hash]);
    expect(withdrawn).toEqual([{ hash: top.hash, name: EDITION.root, at: hub.now(), byName: 'Sen', why: 'wrong band' }]);
    expect((await tech.ask('GET', `/crew/editions/${top.hash}`)).status).toBe(200);
    const answer = await publish(senior, { hash: top.hash, edition: (await tech.ask('GET', `/crew/editions/${top.hash}`)).body }, before.hash);
    expect([answer.status, answer.body.code]).toEqual([409, 'edition-withdrawn']);
    // Made from what was taken back, or from what is current again: both follow.
    expect((await publish(senior, editionTitled('Put right'), top.hash)).status).toBe(201);
    expect((await senior.ask('POST', `/crew/editions/${'0'.repeat(64)}/withdrawal`, { json: { why: 'x' } })).status).toBe(404);
  });

  test('what is not an edition, or not what its hash names, is not taken', async () => {
    expect((await publish(senior, { hash: EDITION_HASH, edition: { format: 'ohmward-edition/1' } })).body.code).toBe('not-an-edition');
    expect((await publish(senior, { hash: 'a'.repeat(64), edition: EDITION })).body.code).toBe('not-its-hash');
    const script = { hash: EDITION_HASH, edition: { ...EDITION, figures: { x: 'data:text/html;base64,PHNjcmlwdD4=' } } };
    expect((await publish(senior, script)).body.code).toBe('not-an-edition');
  });

  test('the list says by its mark that nothing has changed, and that something has', async () => {
    const before = await tech.ask('GET', '/crew/editions');
    const mark = String(before.headers.etag);
    expect((await tech.ask('GET', '/crew/editions', { headers: { 'if-none-match': mark } })).status).toBe(304);
    const [top] = (await tech.ask('GET', `/crew/trees/${EDITION.root}/publications`)).body.publications;
    await publish(senior, editionTitled('Newest'), top.hash);
    expect((await tech.ask('GET', '/crew/editions', { headers: { 'if-none-match': mark } })).status).toBe(200);
  });

  describe('an edition that only a phone has', () => {
    const alone = editionTitled('From a file');

    test('is kept once a walk on it is here, and the walk can then be replayed', async () => {
      expect((await tech.ask('PUT', `/crew/editions/${EDITION_HASH}`, { json: EDITION })).status).toBe(404);
      const lines = closedWalk('walk-on-a-file');
      const uploaded = await tech.ask('POST', '/crew/walks/lines', { json: { lines } });
      expect(uploaded.body.standings[0].flags).toEqual(['unknown-edition']);
      expect((await tech.ask('PUT', `/crew/editions/${EDITION_HASH}`, { json: alone.edition })).body.code).toBe('not-its-hash');
      expect((await tech.ask('PUT', `/crew/editions/${EDITION_HASH}`, { json: EDITION })).status).toBe(200);
      const { walks } = (await tech.ask('GET', '/crew/walks')).body;
      expect(walks[0]).toMatchObject({ walk: 'walk-on-a-file', outcome: 'fixed', phase: 'closed', flags: [], tree: EDITION.root });
      expect((await list(tech)).entries.map(({ hash }: { hash: string }) => hash)).not.toContain(EDITION_HASH);
    });

    test('is tied to a walk that came while it was being kept, once it is put again', async () => {
      const walk = 'walk-beside';
      await tech.ask('POST', '/crew/walks/lines', { json: { lines: closedWalk(walk) } });
      // As two transactions at once leave it: the edition is here, and the walk has seen nothing of it.
      const { db } = hub.store;
      const unseen = { tree: null, summed: 0, phase: null, outcome: null, finding: null, finding_tree: null, finding_step: null };
      await db.updateTable('walk').set(unseen).where('id', '=', walk).execute();
      const standing = async () => (await tech.ask('POST', '/crew/walks/standings', { json: { walks: [walk] } })).body.standings[0];
      expect((await standing()).flags).toEqual(['unknown-edition']);
      const changes = async (after: number) => (await owner.ask('GET', `/crew/changes?after=${after}&most=500`)).body;
      const { cursor } = await changes(0);
      expect((await tech.ask('PUT', `/crew/editions/${EDITION_HASH}`, { json: EDITION })).status).toBe(200);
      expect((await standing()).flags).toEqual([]);
      const { walks } = await changes(cursor);
      expect(walks).toEqual([expect.objectContaining({ walk, tree: EDITION.root, outcome: 'fixed', phase: 'closed', flags: [] })]);
    });
  });
});
