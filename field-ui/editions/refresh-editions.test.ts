import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { type Edition, editionHash } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { FieldDb } from '../storage/field-db.ts';
import { pending } from '../walk/pending.ts';
import { refreshEditions } from './refresh-editions.ts';
import { refreshWords } from './refresh-words.ts';

let count = 0;
let db: FieldDb;
beforeEach(() => {
  db = new FieldDb(`editions-${count++}`);
});

function retitled(title: string): Edition {
  const edition = smallEdition();
  const root = edition.trees[edition.root];
  if (root) root.title = title;
  return edition;
}

const entry = (edition: Edition) => ({
  hash: editionHash(edition),
  name: edition.root,
  title: edition.trees[edition.root]?.title ?? '',
  complaint: '',
  steps: 3,
});

/** A service that has these editions, and counts what it is asked. */
function service(editions: readonly Edition[], spoil: (path: string, body: unknown) => unknown = (_, body) => body) {
  const asked: string[] = [];
  const files = new Map<string, unknown>([
    ['/editions/index.json', editions.map(entry)],
    ...editions.map((e): [string, unknown] => [`/editions/${editionHash(e)}.json`, e]),
  ]);
  const fetchPath = async (path: string): Promise<Response> => {
    asked.push(path);
    const body = spoil(path, files.get(path));
    return body === undefined ? new Response('', { status: 404 }) : new Response(JSON.stringify(body));
  };
  return { fetchPath, asked };
}

const listed = async () => (await db.editions.toArray()).map(({ title, listed }) => `${title} ${listed}`).sort();

const noSignal = async (): Promise<Response> => {
  throw new TypeError('Failed to fetch');
};

describe('the crew’s list', () => {
  it('brings every edition onto the device, and each only once', async () => {
    const two = [retitled('A'), retitled('B')];
    const first = service(two);
    expect(await refreshEditions(db, first.fetchPath)).toEqual({ trees: 2, fetched: 2, problems: [] });
    const second = service(two);
    expect(await refreshEditions(db, second.fetchPath)).toEqual({ trees: 2, fetched: 0, problems: [] });
    expect(second.asked).toEqual(['/editions/index.json']);
    expect((await db.editions.orderBy('listed').toArray()).map(({ title }) => title)).toEqual(['A', 'B']);
  });

  it('that drops an edition keeps it for the walks that were walked on it, and for a call that is about to be opened', async () => {
    const [a, b, c] = [retitled('A'), retitled('B'), retitled('C')];
    await refreshEditions(db, service([a, b]).fetchPath);
    await db.walks.put({ id: 'w', edition: editionHash(a), title: 'A', opened: '', changed: '', lines: 1, phase: 'work', putBack: 0 });
    await refreshEditions(db, service([c]).fetchPath);
    expect(await listed()).toEqual(['A -1', 'B -1', 'C 0']);
    await refreshEditions(db, service([c]).fetchPath);
    expect(await listed()).toEqual(['A -1', 'C 0']);
  });

  it('that drops an edition keeps it for the drills on it, given or practised alone', async () => {
    const [a, b, c] = [retitled('A'), retitled('B'), retitled('C')];
    await refreshEditions(db, service([a, b]).fetchPath);
    const task = { id: 'drill-1', edition: editionHash(a), tree: a.root, bench: 'own', facts: {}, order: 'free' as const };
    await db.drillTasks.put({ task, by: 'p', people: [], byName: 'T. Rowan', at: '2026-01-15T09:00:00.000Z' });
    const run = { task: { ...task, id: 'drill-2', edition: editionHash(b) }, lines: [] };
    await db.drillRuns.bulkPut([
      { id: 'run-1', drill: 'drill-2', run, ended: false },
      { id: 'run-2', drill: 'drill-3', run: { from: 'another version' }, ended: true },
    ]);
    for (let look = 0; look < 3; look += 1) await refreshEditions(db, service([c]).fetchPath);
    expect(await listed()).toEqual(['A -1', 'B -1', 'C 0']);
  });

  it('leaves a tree with the edition that is here until the newer one could be had', async () => {
    await refreshEditions(db, service([retitled('A')]).fetchPath);
    const newer = [retitled('B')];
    const cut = service(newer, (path, body) => (path.endsWith('index.json') ? body : undefined));
    expect((await refreshEditions(db, cut.fetchPath)).problems).toMatchObject([{ code: 'edition-not-fetched' }]);
    expect(await listed()).toEqual(['A 0']);
    await refreshEditions(db, service(newer).fetchPath);
    expect(await listed()).toEqual(['A -1', 'B 0']);
  });

  it('that an older look brings late does not take the place of a newer one', async () => {
    const look = new AbortController();
    const late = retitled('Z');
    const slow = service([retitled('A'), late]);
    const [asked, going] = [pending<void>(), pending<void>()];
    const older = refreshEditions(
      db,
      async (path) => {
        if (path.includes(editionHash(late))) {
          asked.resolve();
          await going.promise;
        }
        return slow.fetchPath(path);
      },
      look.signal,
    );
    await asked.promise;
    look.abort();
    await refreshEditions(db, service([retitled('B')]).fetchPath);
    going.resolve();
    await older;
    expect(await listed()).toEqual(['B 0']);
  });

  it('is gone on with where a look was cut short', async () => {
    const look = new AbortController();
    const two = [retitled('A'), retitled('B')];
    const first = service(two);
    const cut = async (path: string): Promise<Response> => {
      if (first.asked.length < 2) return first.fetchPath(path);
      look.abort();
      throw new TypeError('Failed to fetch');
    };
    await refreshEditions(db, cut, look.signal);
    expect(await listed()).toEqual(['A -1']);
    expect(await refreshEditions(db, service(two).fetchPath)).toEqual({ trees: 2, fetched: 1, problems: [] });
    expect(await listed()).toEqual(['A 0', 'B 1']);
  });

  it('is asked for with an end to the asking, which is no signal for whoever waits', async () => {
    const hanging = (_: string, init?: RequestInit): Promise<Response> =>
      new Promise((_resolve, reject) => init?.signal?.addEventListener('abort', () => reject(init.signal?.reason)));
    const look = new AbortController();
    const asked = refreshEditions(db, hanging, look.signal);
    look.abort();
    expect(await asked).toEqual({ trees: 0, fetched: 0, problems: [{ code: 'no-signal' }] });
  });

  it('for anyone never replaces the list of a crew that was joined meanwhile', async () => {
    await refreshEditions(db, service([retitled('A')]).fetchPath);
    const since = '2026-01-15T09:00:00.000Z';
    const person = { id: 'p', name: 'R. Alder', role: 'tech' as const, since };
    const device = { id: 'd', person: 'p', kind: 'field' as const, label: 'Phone', since, seen: since };
    await db.crew.put({ key: 'membership', token: 't', person, device });
    await refreshEditions(db, service([retitled('B')]).fetchPath);
    expect((await db.editions.toArray()).map(({ title, listed }) => [title, listed])).toEqual([['A', 0]]);
  });

  it('that cannot be reached changes nothing on the device', async () => {
    await refreshEditions(db, service([retitled('A')]).fetchPath);
    expect(await refreshEditions(db, noSignal)).toEqual({ trees: 0, fetched: 0, problems: [{ code: 'no-signal' }] });
    expect(await db.editions.count()).toBe(1);
  });

  it.each([
    ['is not a list', (path: string, body: unknown) => (path.endsWith('index.json') ? { trees: 3 } : body), 'list-not-understood'],
    ['names an edition that is not there', (path: string, body: unknown) => (path.endsWith('index.json') ? body : undefined), 'edition-not-fetched'],
    ['is not there', () => undefined, 'service-answered'],
    [
      'gives another edition than its hash names',
      (path: string, body: unknown) => (path.endsWith('index.json') ? body : retitled('Z')),
      'not-that-edition',
    ],
    ['gives something else', (path: string, body: unknown) => (path.endsWith('index.json') ? body : { format: 'x' }), 'not-that-edition'],
  ])('that %s is told, and keeps nothing of it', async (_, spoil, code) => {
    const { problems } = await refreshEditions(db, service([retitled('A')], spoil).fetchPath);
    expect(problems).toMatchObject([{ code }]);
    for (const problem of problems) expect(refreshWords(problem).length).toBeGreaterThan(20);
    expect(await db.editions.count()).toBe(0);
  });
});
