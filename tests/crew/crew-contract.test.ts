import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ownerCode } from '../../shared/crew/store/invitation-store.ts';
import { eachStore } from './testing/each-store.ts';
import { HOOK_TIME } from './testing/hook-time.ts';
import { type Answer, HubUnderTest, type Member } from './testing/hub-under-test.ts';

const HOUR = 3_600_000;

eachStore((fresh, name) => {
  let hub: HubUnderTest;
  let owner: Member;
  beforeAll(async () => {
    hub = await HubUnderTest.open(await fresh());
    expect((await hub.ask('GET', '/crew/state')).body).toMatchObject({ hub: 'ohmward', owned: false });
    owner = await hub.owner();
  }, HOOK_TIME);
  afterAll(() => hub?.close());

  const codeFor = async (json: object): Promise<string> => (await owner.ask('POST', '/crew/invitations', { json })).body.codes[0].code;
  const tryCode = (code: string, more: object = { name: 'X' }) =>
    hub.ask('POST', '/crew/join', { json: { code, kind: 'field', label: 'phone', ...more } });

  describe('joining', () => {
    test('the first owner makes the terminal’s other codes worthless', async () => {
      const place = await fresh();
      const other = await HubUnderTest.open(place);
      const [one, two] = [await ownerCode(other.store, other.now()), await ownerCode(other.store, other.now())];
      await other.join(one.code, 'First');
      const late = await other.ask('POST', '/crew/join', { json: { code: two.code, name: 'Second', kind: 'field', label: 'x' } });
      expect([late.status, late.body.code]).toEqual([403, 'code-not-good']);
      expect((await other.ask('GET', '/crew/state')).body.owned).toBe(true);
      await other.close();
    });

    test('a code is good once, however it is typed', async () => {
      const code = await codeFor({ role: 'tech' });
      const joined = await tryCode(` ${code.toLowerCase().replace(/-/g, ' ')} `, { name: 'Tam' });
      expect([joined.status, joined.body.person.role]).toEqual([201, 'tech']);
      const again = await tryCode(code);
      expect([again.status, again.body.code]).toEqual([403, 'code-not-good']);
    });

    test('of twenty who use one code at once, one comes in', async () => {
      const code = await codeFor({ role: 'tech' });
      const answers = await Promise.all(Array.from({ length: 20 }, (_, n) => tryCode(code, { name: `Racer ${n}` })));
      expect(answers.filter(({ status }) => status === 201)).toHaveLength(1);
      expect(answers.filter(({ status }) => status === 403)).toHaveLength(19);
      const { people } = (await owner.ask('GET', '/crew/people')).body;
      expect(people.filter(({ name }: { name: string }) => name.startsWith('Racer'))).toHaveLength(1);
    });

    test('a code ends with its hours', async () => {
      const code = await codeFor({ role: 'tech', hours: 2 });
      hub.time += 2 * HOUR;
      expect((await tryCode(code)).body.code).toBe('code-not-good');
    });

    test('a code ends when it is stopped, and with who made it', async () => {
      const made = (await owner.ask('POST', '/crew/invitations', { json: { role: 'tech', note: 'for Sam' } })).body.codes[0];
      expect((await owner.ask('DELETE', `/crew/invitations/${made.id}`)).status).toBe(200);
      expect((await tryCode(made.code)).body.code).toBe('code-not-good');
      const trainer = await hub.member(owner, 'trainer', 'Tess');
      const theirs = (await trainer.ask('POST', '/crew/invitations', { json: { role: 'tech' } })).body.codes[0];
      await owner.ask('PATCH', `/crew/people/${trainer.person}`, { json: { stopped: true } });
      expect((await tryCode(theirs.code)).body.code).toBe('code-not-good');
    });

    describe.skipIf(name === 'SQLite')('while the same code is changed by a transaction that has not ended', () => {
      /** Changes a code, asks, and ends the change once what was asked for waits for it. SQLite does one after the other. */
      async function beside(change: { used: string } | { stopped: string }, asking: (made: { id: string; code: string }) => Promise<Answer>) {
        const made = (await owner.ask('POST', '/crew/invitations', { json: { role: 'tech' } })).body.codes[0];
        const { db } = hub.store;
        const other = await db.startTransaction().execute();
        await other.updateTable('invitation').set(change).where('id', '=', made.id).execute();
        let isAnswered = false;
        const answer = asking(made).finally(() => {
          isAnswered = true;
        });
        const waiting = sql`select 1 from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'`;
        while (!isAnswered && (await waiting.execute(db)).rows.length === 0) await new Promise((resolve) => setImmediate(resolve));
        const waited = !isAnswered;
        await other.commit().execute();
        const { status, body } = await answer;
        const row = await db.selectFrom('invitation').select(['used', 'stopped']).where('id', '=', made.id).executeTakeFirst();
        return { waited, status, code: body.code, row };
      }

      test('one that is stopped lets nobody in', async () => {
        const stopped = hub.now();
        const answer = await beside({ stopped }, ({ code }) => tryCode(code, { name: 'Late' }));
        expect(answer).toEqual({ waited: true, status: 403, code: 'code-not-good', row: { used: null, stopped } });
        const { people } = (await owner.ask('GET', '/crew/people')).body;
        expect(people.map((one: { name: string }) => one.name)).not.toContain('Late');
      });

      test('one that lets someone in is not stopped as well', async () => {
        const used = hub.now();
        const answer = await beside({ used }, ({ id }) => owner.ask('DELETE', `/crew/invitations/${id}`));
        expect(answer).toEqual({ waited: true, status: 200, code: undefined, row: { used, stopped: null } });
        const { entries } = (await owner.ask('GET', '/crew/audit')).body;
        expect(entries[0].what).toBe('invited');
      });
    });

    test('a new person needs a name, and the code is still good after that is told', async () => {
      const code = await codeFor({ role: 'tech' });
      expect((await tryCode(code, {})).body.code).toBe('name-missing');
      expect((await tryCode(code, { name: 'Nan' })).status).toBe(201);
    });

    test('another device joins as the same person', async () => {
      const tech = await hub.member(owner, 'tech', 'Two Phones');
      const { code } = (await tech.ask('POST', '/crew/devices/code', { json: {} })).body;
      const second = await hub.join(code, undefined, 'desk');
      expect(second.person).toBe(tech.person);
      expect((await tech.ask('GET', '/crew/devices')).body.devices).toHaveLength(2);
    });

    test('each role invites as far as it may', async () => {
      const trainer = await hub.member(owner, 'trainer', 'Tri');
      expect((await trainer.ask('POST', '/crew/invitations', { json: { role: 'tech' } })).status).toBe(201);
      for (const role of ['trainer', 'senior-tech', 'owner'])
        expect((await trainer.ask('POST', '/crew/invitations', { json: { role } })).body.code).toBe('not-allowed');
      const many = await owner.ask('POST', '/crew/invitations', { json: { role: 'tech', count: 30 } });
      expect(new Set(many.body.codes.map(({ code }: { code: string }) => code)).size).toBe(30);
    });

    test('an invitation has a link for each app, with the code where no server sees it, and a QR of it', async () => {
      const made = (await owner.ask('POST', '/crew/invitations', { json: { role: 'tech' } })).body.codes[0];
      expect(made.link).toBe(`http://hub.test/field/#/join/${made.code}`);
      expect(made.deskLink).toBe(`http://hub.test/desk/#/join/${made.code}`);
      expect(made.qr).toMatch(/^<svg[\s\S]+<\/svg>\s*$/);
    });
  });

  describe('devices', () => {
    test('a stopped device is out at once, and told so', async () => {
      const tech = await hub.member(owner, 'tech', 'Lost Phone');
      expect((await owner.ask('DELETE', `/crew/devices/${tech.device}`)).status).toBe(200);
      const answer = await tech.ask('GET', '/crew/me');
      expect([answer.status, answer.body.code]).toEqual([401, 'device-stopped']);
    });

    test('a stopped person is out on every device, and back when let back in', async () => {
      const tech = await hub.member(owner, 'tech', 'On Leave');
      await owner.ask('PATCH', `/crew/people/${tech.person}`, { json: { stopped: true } });
      expect((await tech.ask('GET', '/crew/me')).body.code).toBe('person-stopped');
      await owner.ask('PATCH', `/crew/people/${tech.person}`, { json: { stopped: false } });
      expect((await tech.ask('GET', '/crew/me')).status).toBe(200);
    });

    test('a tech stops their own devices and nobody else’s', async () => {
      const [one, two] = [await hub.member(owner, 'tech', 'One'), await hub.member(owner, 'tech', 'Two')];
      expect((await one.ask('DELETE', `/crew/devices/${two.device}`)).status).toBe(404);
      expect((await two.ask('GET', '/crew/me')).status).toBe(200);
      expect((await one.ask('GET', `/crew/devices?person=${two.person}`)).body.code).toBe('not-allowed');
      expect((await one.ask('POST', '/crew/leave', { json: {} })).status).toBe(200);
      expect((await one.ask('GET', '/crew/me')).status).toBe(401);
    });

    test('a desk is out after thirty days without use, and stays while it is used', async () => {
      const desk = await hub.member(owner, 'trainer', 'Desk', 'desk');
      for (let n = 0; n < 3; n += 1) {
        hub.time += 20 * 24 * HOUR;
        expect((await desk.ask('GET', '/crew/me')).status).toBe(200);
      }
      hub.time += 31 * 24 * HOUR;
      expect((await desk.ask('GET', '/crew/me')).body.code).toBe('not-joined');
    });

    test('no secret and no code is stored', async () => {
      const code = await codeFor({ role: 'tech' });
      const tech = await hub.member(owner, 'tech', 'Secret');
      const rows = [await hub.store.db.selectFrom('device').selectAll().execute(), await hub.store.db.selectFrom('invitation').selectAll().execute()];
      const text = JSON.stringify([rows, await hub.store.db.selectFrom('audit').selectAll().execute()]);
      expect(text).not.toContain(tech.secret);
      expect(text).not.toContain(code);
      expect(text).not.toContain(code.replace(/-/g, ''));
    });
  });

  describe('owners', () => {
    test('a role changed counts from the next request on', async () => {
      const person = await hub.member(owner, 'tech', 'Rising');
      expect((await person.ask('GET', '/crew/people')).body.code).toBe('not-allowed');
      await owner.ask('PATCH', `/crew/people/${person.person}`, { json: { role: 'trainer' } });
      expect((await person.ask('GET', '/crew/people')).status).toBe(200);
    });

    test('the crew keeps one, even when two step down at once', async () => {
      const other = await HubUnderTest.open(await fresh());
      const first = await other.owner();
      expect((await first.ask('PATCH', `/crew/people/${first.person}`, { json: { role: 'tech' } })).body.code).toBe('last-owner');
      expect((await first.ask('PATCH', `/crew/people/${first.person}`, { json: { stopped: true } })).body.code).toBe('last-owner');
      const second = await other.member(first, 'owner', 'Second');
      const answers = await Promise.all([first, second].map((one) => one.ask('PATCH', `/crew/people/${one.person}`, { json: { role: 'tech' } })));
      expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
      await other.close();
    });
  });

  describe('who did what', () => {
    test('is listed newest first, page by page, whole', async () => {
      const seen: number[] = [];
      for (let before: number | undefined; ; ) {
        const { entries, next } = (await owner.ask('GET', `/crew/audit${before === undefined ? '' : `?before=${before}`}`)).body;
        seen.push(...entries.map(({ id }: { id: number }) => id));
        if (next === undefined) break;
        before = next;
      }
      const all = (await hub.store.db.selectFrom('audit').select('id').execute()).map(({ id }) => Number(id)).sort((a, b) => b - a);
      expect(seen).toEqual(all);
      expect(seen.length).toBeGreaterThan(20);
    });

    test('names the deed, who and on what', async () => {
      const tech = await hub.member(owner, 'tech', 'Audited');
      await owner.ask('PATCH', `/crew/people/${tech.person}`, { json: { role: 'senior-tech' } });
      const { entries } = (await owner.ask('GET', '/crew/audit')).body;
      expect(entries[0]).toMatchObject({
        what: 'person-changed',
        person: owner.person,
        about: tech.person,
        details: { role: 'senior-tech', before: 'tech' },
      });
      expect(entries[1]).toMatchObject({ what: 'joined', person: tech.person, about: tech.device });
      expect(entries[2]).toMatchObject({ what: 'invited', person: owner.person });
    });

    test('cannot be changed or thinned out, by whatever program', async () => {
      const { db } = hub.store;
      await expect(db.updateTable('audit').set({ what: 'nothing' }).execute()).rejects.toThrow('append-only');
      await expect(db.deleteFrom('audit').execute()).rejects.toThrow('append-only');
    });
  });
});
