import { expect, test } from 'vitest';
import { deskClient, lookForHub } from './look-for-hub.ts';

const since = '2026-01-15T09:00:00.000Z';
const me = {
  person: { id: 'p1', name: 'M. Birch', role: 'owner', since },
  device: { id: 'd1', person: 'p1', kind: 'desk', label: 'Office', since, seen: since },
};
const json = (body: unknown, status = 200, headers: Record<string, string> = {}): Response => new Response(JSON.stringify(body), { status, headers });
const service = (hub: boolean): Response => new Response(null, { headers: hub ? { 'ohmward-hub': 'yes' } : {} });
const state = (you?: string): Response => json({ hub: 'ohmward', owned: true, now: since, ...(you !== undefined && { you }) });

/** Looks with these answers by path; what has none cannot be reached. `asked` is what was asked. */
async function look(answers: Readonly<Record<string, Response>>) {
  const asked: string[] = [];
  const fetchPath = async (path: string): Promise<Response> => {
    asked.push(path);
    const answer = answers[path];
    if (!answer) throw new TypeError('Failed to fetch');
    return answer;
  };
  return { standing: await lookForHub(fetchPath, deskClient(fetchPath)), asked };
}

const TREES = '/trees/';

test('where the service has no hub, the hub is not asked', async () => {
  const { standing, asked } = await look({ [TREES]: service(false) });
  expect(standing).toEqual({ state: 'no-hub' });
  expect(asked).toEqual([TREES]);
});

test('a desk that never joined asks nothing that would be refused', async () => {
  const { standing, asked } = await look({ [TREES]: service(true), '/crew/state': state('stranger') });
  expect(standing).toEqual({ state: 'not-joined', owned: true });
  expect(asked).toEqual([TREES, '/crew/state']);
});

test('a desk that was stopped knows why', async () => {
  const { standing } = await look({ [TREES]: service(true), '/crew/state': state('device-stopped') });
  expect(standing).toEqual({ state: 'not-joined', owned: true, stopped: 'device-stopped' });
});

test.each(['joined', undefined])('a desk that is in the crew learns who it is, where the hub says %s of it', async (you) => {
  const { standing } = await look({ [TREES]: service(true), '/crew/state': state(you), '/crew/me': json(me) });
  expect(standing).toMatchObject({ state: 'joined', me: { person: { name: 'M. Birch' } } });
});

test('a desk that is stopped between two questions is out', async () => {
  const { standing } = await look({
    [TREES]: service(true),
    '/crew/state': state('joined'),
    '/crew/me': json({ code: 'person-stopped', error: 'out' }, 401),
  });
  expect(standing).toEqual({ state: 'not-joined', owned: true, stopped: 'person-stopped' });
});

test.each([
  ['the service', {}, 'no-signal'],
  ['something else', { [TREES]: new Response('sign in', { status: 403 }) }, 'answer-not-understood'],
  ['the hub', { [TREES]: service(true) }, 'no-signal'],
  ['the hub in trouble', { [TREES]: service(true), '/crew/state': json({ code: 'hub-troubled', error: '' }, 500) }, 'hub-troubled'],
])('a desk that cannot ask %s is away', async (_who, answers, code) => {
  expect((await look(answers)).standing).toMatchObject({ state: 'away', problem: { code } });
});

test('a service that takes the question and never answers is away', async () => {
  const hangs = (_path: string, init?: RequestInit) =>
    new Promise<Response>((_resolve, reject) => {
      init?.signal?.addEventListener('abort', () => reject(init.signal?.reason));
    });
  expect(await lookForHub(hangs, deskClient(hangs), 5)).toEqual({ state: 'away', problem: { code: 'too-slow' } });
});
