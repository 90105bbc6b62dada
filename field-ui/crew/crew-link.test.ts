import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { FieldDb } from '../storage/field-db.ts';
import { CrewLink } from './crew-link.ts';
import { pauseBetween } from './pause-between.ts';

const since = '2026-01-15T09:00:00.000Z';
const person = { id: 'person-1', name: 'R. Alder', role: 'tech', since };
const device = { id: 'device-1', person: 'person-1', kind: 'field', label: 'Phone', since, seen: since };

let count = 0;
let db: FieldDb;
let crew: CrewLink;
let stop: () => void;
let asked: string[];
/** Answers by path; a path without one cannot be reached. */
let answers: Record<string, () => Response>;

const answer = (body: unknown, status = 200) => new Response(JSON.stringify(body), { status });

function link(): CrewLink {
  return new CrewLink(db, {
    fetch: async (path, init) => {
      const token = new Headers(init?.headers).get('authorization') ?? 'nobody';
      asked.push(`${path} ${token}`);
      const made = answers[path]?.();
      if (!made) throw new TypeError('Failed to fetch');
      return made;
    },
    now: Date.now,
    random: () => 0.5,
    wait: pauseBetween,
    isOnline: () => true,
  });
}

beforeEach(() => {
  db = new FieldDb(`crew-${count++}`);
  asked = [];
  answers = {
    '/crew/join': () => answer({ person, device, token: 'secret-1' }, 201),
    '/crew/editions': () => answer({ entries: [], withdrawn: [] }),
    '/crew/me': () => answer({ person: { ...person, role: 'senior-tech' }, device }),
    '/crew/drills': () => answer({ drills: [] }),
    '/crew/leave': () => answer({ done: true }),
  };
  crew = link();
  stop = crew.start();
});

afterEach(() => stop());

const joined = async () => {
  expect((await crew.join({ code: 'AAAAA', name: 'R. Alder', label: 'Phone' })).ok).toBe(true);
  await vi.waitFor(() => expect(crew.state().sync.code).toBe('done'));
};

describe('a device that is in no crew', () => {
  it('asks the hub nothing', async () => {
    await vi.waitFor(() => expect(crew.state().status).toBe('alone'));
    crew.nudge();
    expect(asked).toEqual([]);
  });

  it('stays so where the hub refuses', async () => {
    answers['/crew/join'] = () => answer({ code: 'code-not-good', error: 'no' }, 400);
    expect(await crew.join({ code: 'AAAAA', label: 'Phone' })).toMatchObject({ ok: false, problem: { code: 'code-not-good' } });
    expect(await db.crew.count()).toBe(0);
  });
});

describe('a device that joins', () => {
  it('keeps its token, shows it from then on, and learns of a new role', async () => {
    await joined();
    expect(asked[0]).toBe('/crew/join nobody');
    expect(asked).toContain('/crew/editions Bearer secret-1');
    await vi.waitFor(() => expect(crew.state().membership?.person.role).toBe('senior-tech'));
    expect(await db.crew.get('membership')).toMatchObject({ token: 'secret-1', device });
  });

  it('is joined still after the app was closed, and in another tab', async () => {
    const tab = link();
    const stopTab = tab.start();
    await joined();
    await vi.waitFor(() => expect(tab.state().status).toBe('joined'));
    stopTab();
    const later = link();
    const stopLater = later.start();
    await vi.waitFor(() => expect(later.state().membership?.token).toBe('secret-1'));
    stopLater();
  });

  it('gives the place that it had before back', async () => {
    await joined();
    answers['/crew/join'] = () => answer({ person, device, token: 'secret-2' }, 201);
    await joined();
    await vi.waitFor(() => expect(asked).toContain('/crew/leave Bearer secret-1'));
    expect(await db.crew.get('membership')).toMatchObject({ token: 'secret-2' });
  });
});

describe('a device that leaves', () => {
  it('forgets the token and stops asking', async () => {
    await joined();
    expect(await crew.leave()).toEqual({ ok: true, value: undefined });
    await vi.waitFor(() => expect(crew.state().status).toBe('alone'));
    expect(await db.crew.count()).toBe(0);
    expect(crew.state().sync.code).toBe('off');
  });

  it('stays while the hub cannot be told, and goes where it was stopped already', async () => {
    await joined();
    delete answers['/crew/leave'];
    expect(await crew.leave()).toEqual({ ok: false, problem: { code: 'no-signal' } });
    expect(await db.crew.get('membership')).toBeDefined();
    answers['/crew/leave'] = () => answer({ code: 'device-stopped', error: 'out' }, 401);
    expect((await crew.leave()).ok).toBe(true);
    expect(await db.crew.count()).toBe(0);
  });
});
