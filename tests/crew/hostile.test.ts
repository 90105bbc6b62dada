import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ACCESS } from '../../shared/crew/roles/access-table.ts';
import { hubCodeSchema } from '../../shared/sync/wire/problem-wire.ts';
import { eachStore } from './testing/each-store.ts';
import { HOOK_TIME } from './testing/hook-time.ts';
import { HubUnderTest, type Member } from './testing/hub-under-test.ts';
import { Mutations } from './testing/mutations.ts';
import { DRILL_EDITION, DRILL_HASH, DRILL_TASK } from './testing/sample-drill.ts';
import { closedWalk, EDITION, EDITION_HASH } from './testing/sample-walks.ts';

// A hundred thousand spoilt things: requests, editions, and the lines of logs, several to an upload. A fifth of them go to PostgreSQL, which has
// its own ways of refusing a text.
const TIMES = { SQLite: 80_000, PostgreSQL: 20_000 } as const;

const WALKS = Array.from({ length: 20 }, (_, n) => closedWalk(`walk-${n}`));
const ROUTES = Object.keys(ACCESS).filter((key) => !key.endsWith('/crew/leave'));

const CODES = new Set<string>([...hubCodeSchema.options, 'forked', 'line-refused']);

type Request = {
  readonly method: string;
  readonly path: string;
  readonly json?: unknown;
  readonly raw?: string;
  readonly type?: string;
  readonly things?: number;
};

eachStore((fresh, name) => {
  let hub: HubUnderTest;
  const members: Member[] = [];
  let drill = '';
  beforeAll(async () => {
    hub = await HubUnderTest.open(await fresh());
    const owner = await hub.owner();
    members.push(
      owner,
      await hub.member(owner, 'senior-tech', 'Sen'),
      await hub.member(owner, 'tech', 'Tam'),
      await hub.member(owner, 'trainer', 'Tess', 'desk'),
    );
    await owner.ask('POST', '/crew/editions', { json: { hash: EDITION_HASH, edition: EDITION, why: 'first' } });
    await members[2]?.ask('POST', '/crew/walks/lines', { json: { lines: closedWalk('walk-1') } });
    await owner.ask('PUT', `/crew/editions/${DRILL_HASH}`, { json: DRILL_EDITION });
    drill = (await owner.ask('POST', '/crew/drills', { json: { task: DRILL_TASK } })).body.task.id;
  }, HOOK_TIME);
  afterAll(() => hub?.close());

  /** Requests that the apps make, before they are spoilt. */
  const good = (mutations: Mutations): Request => {
    const lines = mutations.one(WALKS);
    const some = Array.from({ length: 8 }, () => mutations.spoil(mutations.one(lines)));
    if (mutations.below(3) === 0) return { method: 'POST', path: '/crew/walks/lines', json: { lines: some, tails: [] }, things: some.length };
    return mutations.one<Request>([
      {
        method: 'POST',
        path: '/crew/walks/lines',
        json: { lines: lines.slice(3, 5), tails: [{ walk: 'walk-1', length: 15, head: lines[3]?.hash }] },
      },
      { method: 'POST', path: '/crew/walks/standings', json: { walks: ['walk-1', 'walk-2'] } },
      {
        method: 'POST',
        path: '/crew/editions',
        json: { hash: EDITION_HASH, edition: EDITION, basedOn: EDITION_HASH, why: 'x', changes: ['y'], accepted: { a: 'b' } },
      },
      { method: 'PUT', path: `/crew/editions/${EDITION_HASH}`, json: EDITION },
      { method: 'POST', path: `/crew/editions/${EDITION_HASH}/withdrawal`, json: { why: 'z' } },
      { method: 'POST', path: '/crew/invitations', json: { role: 'tech', hours: 3, count: 1, note: 'n' } },
      { method: 'POST', path: '/crew/join', json: { code: 'AAAAA-BBBBB-CCCCC-DDDDD', name: 'N', kind: 'field', label: 'l' } },
      { method: 'PATCH', path: '/crew/people/person-x', json: { role: 'tech', stopped: false, name: 'N' } },
      { method: 'DELETE', path: '/crew/devices/device-x' },
      { method: 'GET', path: `/crew/walks?tree=dry-pad&edition=${EDITION_HASH}&person=p&outcome=fixed&from=2026-01-01&after=YQ&most=5` },
      { method: 'GET', path: '/crew/walks/walk-1/lines?from=3' },
      { method: 'GET', path: '/crew/changes?after=1&most=5' },
      { method: 'GET', path: '/crew/audit?before=5' },
      { method: 'GET', path: '/crew/trees/dry-pad/publications' },
      { method: 'GET', path: '/crew/walks/walk-1/photos/photo-1' },
      { method: 'GET', path: '/crew/walks?confirmed=open&finding=dry-pad%2Fcontact-open&most=3' },
      { method: 'POST', path: '/crew/walks/walk-1/confirmations', json: { held: false, bench: 'pad', fault: 'coil-open', note: 'n' } },
      { method: 'GET', path: '/crew/walks/walk-1/confirmations' },
      { method: 'GET', path: `/crew/trees/dry-pad/picture?edition=${EDITION_HASH}&from=2026-01-01&to=2027-01-01` },
      { method: 'GET', path: '/crew/confirmed-faults' },
      { method: 'POST', path: '/crew/drills', json: { task: DRILL_TASK, people: ['person-x'] } },
      { method: 'GET', path: `/crew/drills/${drill}/runs` },
      { method: 'DELETE', path: '/crew/drills/drill-x' },
      { method: 'PUT', path: `/crew/drills/${drill}/runs/run-1`, json: { run: { id: 'run-1', lines: [{ shown: '24.1 V' }] } } },
      { method: 'PUT', path: `/crew/photos/${EDITION_HASH}?walk=walk-1&photo=p`, raw: '\u0089PNG\r\n\u001a\n', type: 'image/png' },
      { method: mutations.one(['GET', 'POST', 'PUT', 'PATCH', 'DELETE']), path: mutations.one(ROUTES).split(' ')[1] ?? '/', json: {} },
    ]);
  };

  test(`${TIMES[name]} spoilt requests, editions and log lines: each is answered, with a code where it is refused, and none brings the hub down`, {
    timeout: 900_000,
  }, async () => {
    const mutations = new Mutations(23);
    const counts = new Map<string, number>();
    const wrong: string[] = [];
    for (let n = 0; n < TIMES[name]; ) {
      const { method, path, json, raw, type, things = 0 } = good(mutations);
      n += 1 + things;
      const payload = json === undefined ? raw : JSON.stringify(things > 0 || mutations.below(4) === 0 ? json : mutations.spoil(json));
      const body = payload !== undefined && mutations.below(6) === 0 ? mutations.spoilText(payload) : payload;
      const url = mutations.below(4) === 0 ? mutations.spoilPath(path) : path;
      const member = members[mutations.below(members.length)];
      const answer = await member?.ask(method, url, {
        ...(body !== undefined && { raw: body }),
        ...(body !== undefined && {
          type:
            mutations.below(40) === 0
              ? mutations.one(['text/html', 'multipart/form-data', 'application/json; charset=x', '\u00ff'])
              : (type ?? 'application/json'),
        }),
      });
      if (!answer) continue;
      const key = answer.status < 400 ? 'taken' : String(answer.body?.code);
      counts.set(key, (counts.get(key) ?? 0) + 1);
      if (answer.status >= 500 || (answer.status >= 400 && !CODES.has(key)))
        wrong.push(`${answer.status} ${key}: ${method} ${url} ${body?.slice(0, 300)} -> ${answer.text.slice(0, 200)}`);
      if (wrong.length > 5) break;
    }
    expect(wrong).toEqual([]);
    expect(counts.get('not-understood') ?? 0).toBeGreaterThan(TIMES[name] / 40);
    for (const code of [
      'not-there',
      'not-allowed',
      'line-refused',
      'not-an-edition',
      'code-not-good',
      'wrong-type',
      'person-unknown',
      // A spoilt drill that still has the form of one is rare: the shorter run may have none.
      ...(TIMES[name] > 50_000 ? ['drill-not-good'] : []),
    ])
      expect(counts.get(code) ?? 0, code).toBeGreaterThan(0);
    // It still does its work.
    expect((await members[0]?.ask('GET', '/crew/me'))?.status).toBe(200);
    const lines = closedWalk('walk-after');
    const after = await members[0]?.ask('POST', '/crew/walks/lines', { json: { lines } });
    expect([after?.status, after?.body.standings[0].length]).toEqual([200, lines.length]);
    console.info(`${name}: ${JSON.stringify(Object.fromEntries([...counts].sort((a, b) => b[1] - a[1])))}`);
  });

  describe('refused with a clear code', () => {
    test.each([
      ['nested a thousand deep', `{"lines":${'['.repeat(1000)}${']'.repeat(1000)}}`],
      ['nested a hundred thousand deep', `{"lines":${'['.repeat(100_000)}${']'.repeat(100_000)}}`],
      ['with a prototype', '{"lines":[],"__proto__":{"role":"owner"}}'],
      ['with a constructor', '{"lines":[],"constructor":{"prototype":{"role":"owner"}}}'],
      ['cut off', '{"lines":['],
      ['empty', ''],
      ['no JSON', '<xml/>'],
      ['a number too large to be', '{"lines":[],"tails":[{"walk":"a","length":1e999,"head":""}]}'],
    ])('a body %s', async (_what, raw) => {
      for (const path of ['/crew/walks/lines', '/crew/editions', '/crew/join', '/crew/invitations']) {
        const answer = await members[0]?.ask('POST', path, { raw, type: 'application/json' });
        expect([
          [400, 'not-understood'],
          [413, 'too-large'],
        ]).toContainEqual([answer?.status, answer?.body.code]);
        expect(answer?.text).not.toMatch(/ at .+\.(ts|js):\d+/);
      }
    });

    test('a body larger than its route takes, and none of it is kept', async () => {
      const text = 'x'.repeat(1024 * 1024);
      const sizes: [string, string, unknown, number][] = [
        ['POST', '/crew/walks/lines', { lines: [text, text] }, 413],
        ['POST', '/crew/editions', { why: text.repeat(5) }, 413],
        ['POST', '/crew/join', { code: text }, 413],
        ['PATCH', '/crew/people/x', { name: text }, 413],
        ['POST', '/crew/walks/lines', { lines: Array.from({ length: 501 }, () => 1) }, 400],
      ];
      for (const [method, path, json, status] of sizes) expect((await members[0]?.ask(method, path, { json }))?.status, path).toBe(status);
    });

    test.each([
      '/crew/editions/../../package.json',
      '/crew/editions/..%2f..%2fpackage.json',
      '/crew/walks/..%2f..%2fetc%2fpasswd/lines',
      '/crew/trees/%00/publications',
      '/crew/walks/%ff/lines',
      '/crew/photos/%2e%2e',
      '//crew/me',
      '/crew//me',
      '/crew/%6de/',
    ])('a path %s', async (path) => {
      const answer = await members[0]?.ask('GET', path);
      // A tree that there is none of has no publications: that is an answer too.
      if (answer?.status === 200) expect(answer.body).toEqual({ publications: [] });
      else expect([400, 404]).toContain(answer?.status);
      expect(answer?.text).not.toMatch(/root:|"scripts"/);
    });
  });

  test('script in every text that a person can type comes back as the text it is, in JSON and never as a page', async () => {
    const script = '<img src=x onerror="alert(1)"><script>alert(1)</script>\u2028{{7*7}}$(7*7)';
    const owner = members[0];
    const made = await owner?.ask('POST', '/crew/invitations', { json: { role: 'tech', note: script.slice(0, 110) } });
    const joined = await hub.ask('POST', '/crew/join', {
      json: { code: made?.body.codes[0].code, name: script.slice(0, 70), kind: 'field', label: script.slice(0, 70) },
    });
    expect(joined.status).toBe(201);
    const lines = closedWalk('walk-script', script.slice(0, 70), script);
    const tech = { headers: { authorization: `Bearer ${joined.body.token}` } };
    expect((await hub.ask('POST', '/crew/walks/lines', { json: { lines }, ...tech })).status).toBe(200);
    await owner?.ask('POST', `/crew/editions/${EDITION_HASH}/withdrawal`, { json: { why: script } });
    expect(
      (await owner?.ask('POST', '/crew/walks/walk-script/confirmations', { json: { held: false, bench: script, fault: script, note: script } }))
        ?.status,
    ).toBe(201);
    const set = await owner?.ask('POST', '/crew/drills', { json: { task: { ...DRILL_TASK, note: script } } });
    expect(set?.status).toBe(201);
    const run = { id: 'run-script', said: script };
    expect((await owner?.ask('PUT', `/crew/drills/${set?.body.task.id}/runs/run-script`, { json: { run } }))?.status).toBe(200);
    for (const path of [
      '/crew/people',
      '/crew/invitations',
      '/crew/audit',
      '/crew/editions',
      '/crew/walks?most=200',
      '/crew/walks/walk-script/lines',
      '/crew/trees/dry-pad/publications',
      '/crew/walks/walk-script/confirmations',
      '/crew/trees/dry-pad/picture',
      '/crew/confirmed-faults',
      '/crew/drills',
      `/crew/drills/${set?.body.task.id}/runs`,
    ]) {
      const answer = await owner?.ask('GET', path);
      expect(answer?.status, path).toBe(200);
      expect(answer?.headers['content-type'], path).toContain('application/json');
      expect(answer?.headers['x-content-type-options']).toBe('nosniff');
      expect(String(answer?.headers['content-security-policy'])).toContain("script-src 'self'");
    }
    const { people } = (await owner?.ask('GET', '/crew/people'))?.body ?? {};
    expect(people.map(({ name: one }: { name: string }) => one)).toContain(script.slice(0, 70).trim());
    expect((await owner?.ask('GET', '/crew/walks/walk-script/lines'))?.body.lines).toEqual(lines);
  });
});
