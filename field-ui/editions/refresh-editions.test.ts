import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { type Edition, editionHash } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { FieldDb } from '../storage/field-db.ts';
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

  it('that drops an edition keeps it for the walks that were walked on it', async () => {
    const [a, b, c] = [retitled('A'), retitled('B'), retitled('C')];
    await refreshEditions(db, service([a, b]).fetchPath);
    await db.walks.put({ id: 'w', edition: editionHash(a), title: 'A', opened: '', changed: '', lines: 1, phase: 'work', putBack: 0 });
    await refreshEditions(db, service([c]).fetchPath);
    const stored = await db.editions.toArray();
    expect(stored.map(({ title, listed }) => [title, listed]).sort()).toEqual([
      ['A', -1],
      ['C', 0],
    ]);
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
