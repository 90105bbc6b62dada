import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { USUAL_LIMITS } from '../../shared/crew/hub.ts';
import { hashSecret, isSecret, newCode, newSecret, plainCode } from '../../shared/crew/roles/secrets.ts';
import { HOOK_TIME } from './testing/hook-time.ts';
import { HubUnderTest, type Member, NO_LIMITS, sqlitePlace } from './testing/hub-under-test.ts';
import { plainLines } from './testing/sample-walks.ts';

const place = sqlitePlace();
const log: string[] = [];
let hub: HubUnderTest;
let owner: Member;
beforeAll(async () => {
  hub = await HubUnderTest.open(place.place, {}, { log: { level: 'debug', stream: { write: (line) => void log.push(line) } } });
  owner = await hub.owner();
}, HOOK_TIME);
afterAll(async () => {
  await hub.close();
  place.clear();
});

describe('secrets', () => {
  test('are 256 and 100 random bits, and never twice the same', () => {
    const secrets = Array.from({ length: 1000 }, newSecret);
    expect(new Set(secrets).size).toBe(1000);
    for (const secret of secrets) expect(Buffer.from(secret, 'base64url')).toHaveLength(32);
    expect(secrets.every(isSecret)).toBe(true);
    const codes = Array.from({ length: 1000 }, newCode);
    expect(new Set(codes).size).toBe(1000);
    for (const code of codes) expect(code).toMatch(/^([0-9A-HJKMNP-TV-Z]{5}-){3}[0-9A-HJKMNP-TV-Z]{5}$/);
  });

  test('are hashed by SHA-256', () => {
    // FIPS 180-2, appendix B.1: the digest of "abc".
    expect(hashSecret('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });

  test('a code is read as it may be typed', () => {
    expect(plainCode('01abc-defgh-jkmnp-qrstv')).toBe('01ABCDEFGHJKMNPQRSTV');
    expect(plainCode('oLabc defgh jkmnp qrstv')).toBe('01ABCDEFGHJKMNPQRSTV');
    for (const bad of ['', 'short', `${newCode()}A`, '01ABC-DEFGH-JKMNP-QRST!']) expect(plainCode(bad)).toBeUndefined();
  });
});

describe('the log', () => {
  test('has what was asked and never a token, code, cookie, name or line', async () => {
    const made = (await owner.ask('POST', '/crew/invitations', { json: { role: 'trainer', note: 'note-of-the-invitation' } })).body.codes[0];
    const desk = await hub.join(made.code, 'Name Of Someone', 'desk');
    const other = (await owner.ask('POST', '/crew/invitations', { json: { role: 'tech' } })).body.codes[0];
    await hub.ask('GET', `/crew/join?code=${other.code}`);
    await hub.ask('GET', `/crew/${other.code}`);
    await hub.ask('POST', '/crew/join', { raw: `{"code":"${other.code}",`, type: 'application/json' });
    await hub.ask('POST', '/crew/join', { json: { code: other.code, kind: 'wrong' } });
    await hub.ask('GET', '/crew/me', { headers: { authorization: `Bearer ${owner.secret}x` } });
    await owner.ask('POST', '/crew/walks/lines', { json: { lines: plainLines('walk-x', 2, { text: 'text-of-a-line' }) } });
    // A database that fails in the midst quotes what it was given.
    const { db } = hub.store;
    const select = db.selectFrom.bind(db);
    db.selectFrom = (() => {
      throw Object.assign(new Error(`key (${owner.secret}) of ${other.code} exists`), { detail: owner.secret });
    }) as unknown as typeof db.selectFrom;
    const failed = await owner.ask('GET', '/crew/people');
    db.selectFrom = select as typeof db.selectFrom;
    expect([failed.status, failed.body.code]).toEqual([500, 'hub-troubled']);
    expect(failed.text).not.toContain(owner.secret);
    const text = log.join('');
    expect(text).toContain('/crew/invitations');
    expect(text).toContain('not answered');
    for (const secret of [
      owner.secret,
      desk.secret,
      made.code,
      other.code,
      'Name Of Someone',
      'note-of-the-invitation',
      'text-of-a-line',
      'ohmward-desk=',
      'Bearer',
    ])
      expect(text, secret).not.toContain(secret);
    for (const line of log) expect(() => JSON.parse(line)).not.toThrow();
  });
});

describe('a desk’s cookie', () => {
  const joinDesk = async (headers: Record<string, string> = {}) => {
    const { code } = (await owner.ask('POST', '/crew/invitations', { json: { role: 'trainer' } })).body.codes[0];
    return hub.ask('POST', '/crew/join', { json: { code, name: 'D', kind: 'desk', label: 'd' }, headers });
  };

  test('is for the hub alone: no script, no other site, no other path', async () => {
    const answer = await joinDesk();
    const cookie = String(answer.headers['set-cookie']);
    expect(cookie).toMatch(/; Path=\/crew\/;/);
    expect(cookie).toContain('HttpOnly');
    expect(cookie).toContain('SameSite=Strict');
    expect(answer.body.token).toBeUndefined();
    expect(answer.headers['cache-control']).toBe('no-store');
  });

  test('goes over https only, behind a proxy that speaks it', async () => {
    expect(String((await joinDesk({ 'x-forwarded-proto': 'https', 'x-forwarded-for': '203.0.113.5' })).headers['set-cookie'])).toContain('; Secure');
  });

  test('is taken back on leaving', async () => {
    const { code } = (await owner.ask('POST', '/crew/invitations', { json: { role: 'trainer' } })).body.codes[0];
    const desk = await hub.join(code, 'Leaver', 'desk');
    const left = await desk.ask('POST', '/crew/leave', { json: {} });
    expect(String(left.headers['set-cookie'])).toMatch(/^ohmward-desk=;.*Expires=Thu, 01 Jan 1970/);
    expect((await desk.ask('GET', '/crew/me')).status).toBe(401);
  });

  test('stays with a desk that was stopped, so that every answer says why, and is taken from one that nobody knows', async () => {
    const desk = await hub.member(owner, 'trainer', 'Stopped', 'desk');
    const change = (json: object) => owner.ask('PATCH', `/crew/people/${desk.person}`, { json });
    const twice = async () => [await desk.ask('GET', '/crew/people'), await desk.ask('GET', '/crew/me')];
    const told = (answers: Awaited<ReturnType<typeof twice>>) =>
      answers.map(({ status, body, headers }) => [status, body.code, headers['set-cookie']]);
    await change({ stopped: true });
    expect(told(await twice())).toEqual(Array(2).fill([401, 'person-stopped', undefined]));
    await change({ stopped: false });
    expect(told(await twice())).toEqual(Array(2).fill([200, undefined, undefined]));
    await owner.ask('DELETE', `/crew/devices/${desk.device}`);
    expect(told(await twice())).toEqual(Array(2).fill([401, 'device-stopped', undefined]));
    const unknown = await hub.ask('GET', '/crew/me', { headers: { cookie: `ohmward-desk=${newSecret()}` } });
    expect([unknown.status, unknown.body.code]).toEqual([401, 'not-joined']);
    expect(String(unknown.headers['set-cookie'])).toMatch(/^ohmward-desk=;/);
  });
});

test('nobody joins over a network that could read along', async () => {
  const { code } = (await owner.ask('POST', '/crew/invitations', { json: { role: 'tech' } })).body.codes[0];
  const json = { code, name: 'N', kind: 'field', label: 'l' };
  const plain = await hub.ask('POST', '/crew/join', { json, headers: { 'x-forwarded-for': '203.0.113.5' } });
  expect([plain.status, plain.body.code]).toEqual([403, 'needs-https']);
  expect((await hub.ask('POST', '/crew/join', { json, headers: { 'x-forwarded-for': '203.0.113.5', 'x-forwarded-proto': 'https' } })).status).toBe(
    201,
  );
});

describe('how often', () => {
  afterEach(() => vi.useRealTimers());

  test('codes are tried, strangers ask and a device asks has an end, each by itself', async () => {
    // What is counted is counted in a minute, however long a busy machine takes for it.
    vi.useFakeTimers({ toFake: ['Date'] });
    const other = sqlitePlace();
    const limits = { device: 40, stranger: 30, codes: 5 };
    const small = await HubUnderTest.open(other.place, { limits });
    const person = await small.owner();
    const tryCode = () => small.ask('POST', '/crew/join', { json: { code: newCode(), name: 'x', kind: 'field', label: 'x' } });
    const tries = [];
    for (let n = 0; n < 8; n += 1) tries.push(await tryCode());
    // One went to the owner.
    expect(tries.map(({ body }) => body.code)).toEqual([...Array(4).fill('code-not-good'), ...Array(4).fill('slow-down')]);
    expect(Number(tries.at(-1)?.headers['retry-after'])).toBeGreaterThan(0);
    const statuses = [];
    for (let n = 0; n < 45; n += 1) statuses.push((await person.ask('GET', '/crew/me')).status);
    expect(statuses.filter((status) => status === 429)).toHaveLength(5);
    // Pages are not counted.
    for (let n = 0; n < 60; n += 1) expect((await small.ask('GET', '/editions/index.json')).status).toBe(200);
    await small.close();
    other.clear();
  });

  test('the usual ends leave room for a day’s work and none for guessing', () => {
    expect(USUAL_LIMITS.codes).toBeLessThanOrEqual(10);
    expect(USUAL_LIMITS.device).toBeGreaterThanOrEqual(600);
    expect(NO_LIMITS.codes).toBeGreaterThan(1e6);
  });
});
