import 'fake-indexeddb/auto';
import { Dexie } from 'dexie';
import { beforeEach, describe, expect, it } from 'vitest';
import { editionHash, walkableEdition } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';
import { crewSyncStore } from './crew-sync-store.ts';
import { FieldDb } from './field-db.ts';
import { walkStore } from './walk-store.ts';

const edition = walkableEdition(smallEdition());
let count = 0;
let db: FieldDb;
beforeEach(() => {
  db = new FieldDb(`sync-${count++}`);
});

async function kept(driver: WalkDriver): Promise<WalkDriver> {
  const replayed = new WalkDriver(edition, driver.walk.id);
  for (const line of driver.lines) {
    replayed.send(line.event);
    const written = replayed.lines.at(-1);
    if (!written) throw new Error('no line');
    expect((await walkStore(db).append(replayed.walk, written)).ok).toBe(true);
  }
  return replayed;
}

async function join(token: string): Promise<void> {
  const since = '2026-01-15T09:00:00.000Z';
  const person = { id: 'p', name: 'R. Alder', role: 'tech' as const, since };
  await db.crew.put({ key: 'membership', token, person, device: { id: 'd', person: 'p', kind: 'field', label: 'Phone', since, seen: since } });
}

function retitled(title: string) {
  const made = smallEdition();
  const root = made.trees[made.root];
  if (root) root.title = title;
  const entry = { hash: editionHash(made), name: made.root, title, complaint: '', steps: 1, from: 'crew' as const };
  return { made, entry };
}

describe('walks', () => {
  it('are unsent from the line on that the hub has not said to hold', async () => {
    const driver = await kept(new WalkDriver(edition, 'walk-1').open().tell('wiring', 'own').read('27'));
    const store = crewSyncStore(db);
    const head = driver.lines.at(-1)?.hash;
    const length = driver.lines.length;
    expect(await store.unsent()).toEqual([{ walk: 'walk-1', length, head, sent: 0 }]);
    expect(await store.lines('walk-1', 2, 3)).toEqual(driver.lines.slice(2, 5));
    expect(await store.lines('walk-1', length, 10)).toEqual([]);
    await store.setSent('walk-1', length);
    expect(await store.unsent()).toEqual([]);
    expect(await store.latest(5)).toEqual([{ walk: 'walk-1', length, head, sent: length }]);
    // A hub that came back from a backup has fewer.
    await store.setSent('walk-1', 2);
    expect(await store.unsent()).toMatchObject([{ walk: 'walk-1', sent: 2 }]);
  });

  it('come oldest first, and the latest first where that is asked', async () => {
    for (const id of ['walk-b', 'walk-a', 'walk-c']) await kept(new WalkDriver(edition, id).open());
    await db.walks.update('walk-a', { changed: '2026-01-01T00:00:00.000+00:00' });
    await db.walks.update('walk-b', { changed: '2026-01-02T00:00:00.000+00:00' });
    await db.walks.update('walk-c', { changed: '2026-01-03T00:00:00.000+00:00' });
    const store = crewSyncStore(db);
    expect((await store.unsent()).map(({ walk }) => walk)).toEqual(['walk-a', 'walk-b', 'walk-c']);
    expect((await store.latest(2)).map(({ walk }) => walk)).toEqual(['walk-c', 'walk-b']);
  });

  it('keep a note once, beside what was sent', async () => {
    const store = crewSyncStore(db);
    await store.setSent('walk-1', 4);
    await store.note('walk-1', { code: 'forked' });
    await store.note('walk-1', { code: 'forked' });
    expect(await db.sync.get('walk-1')).toEqual({ walk: 'walk-1', sent: 4, notes: [{ code: 'forked' }] });
  });
});

describe('photos', () => {
  it('are unsent until they were sent or refused for good', async () => {
    for (const id of ['p1', 'p2', 'p3'])
      await db.photos.add({ id, walk: 'walk-1', taken: '2026-01-15T09:00:00.000+00:00', picture: new Blob([id], { type: 'image/jpeg' }) });
    const store = crewSyncStore(db);
    await store.setSent('walk-1', 1);
    await store.setPhotoSent('p1');
    await store.setPhotoSent('p2', 'too-large');
    expect((await store.unsentPhotos(10)).map(({ id, walk }) => [id, walk])).toEqual([['p3', 'walk-1']]);
    expect(await store.unsentPhotos(0)).toEqual([]);
  });

  it('wait until the hub has a line of their walk', async () => {
    for (const walk of ['walk-1', 'walk-2'])
      await db.photos.add({ id: `p of ${walk}`, walk, taken: '2026-01-15T09:00:00.000+00:00', picture: new Blob(['x'], { type: 'image/jpeg' }) });
    const store = crewSyncStore(db);
    const waiting = async () => (await store.unsentPhotos(10)).map(({ id }) => id);
    expect(await waiting()).toEqual([]);
    await store.note('walk-1', { code: 'forked' });
    expect(await waiting()).toEqual([]);
    await store.setSent('walk-2', 3);
    expect(await waiting()).toEqual(['p of walk-2']);
    await store.setSent('walk-1', 1);
    expect((await waiting()).sort()).toEqual(['p of walk-1', 'p of walk-2']);
  });
});

describe('the crew’s list', () => {
  beforeEach(() => join('secret-1'));

  it('is kept for the membership that it was asked with, and for no other', async () => {
    const [a, b] = [retitled('A'), retitled('B')];
    const store = crewSyncStore(db, 'secret-1');
    await store.keepEdition(a.entry, a.made);
    await store.setList([a.entry], []);
    await store.keepEdition(b.entry, b.made);
    const kept = await db.crew.get('list');
    await join('secret-2');
    await store.setList([b.entry], []);
    expect(await db.crew.get('list')).toEqual(kept);
    await db.crew.clear();
    await store.setList([b.entry], []);
    expect(await db.crew.count()).toBe(0);
    expect((await db.editions.toArray()).map(({ title, listed }) => `${title} ${listed}`).sort()).toEqual(['A 0', 'B -1']);
  });

  it('leaves an edition that a drill was begun on', async () => {
    const [a, b] = [retitled('A'), retitled('B')];
    const store = crewSyncStore(db, 'secret-1');
    for (const one of [a, b]) await store.keepEdition(one.entry, one.made);
    await db.drillRuns.put({ id: 'run-1', drill: 'drill-1', run: { task: { edition: a.entry.hash } }, ended: false });
    await store.setList([b.entry], []);
    await store.setList([b.entry], []);
    expect((await db.editions.toArray()).map(({ title, listed }) => `${title} ${listed}`).sort()).toEqual(['A -1', 'B 0']);
  });

  it('replaces the one before; an edition with a walk on it stays', async () => {
    const store = crewSyncStore(db, 'secret-1');
    const [a, b, c] = [retitled('A'), retitled('B'), retitled('C')];
    const titles = async () => (await db.editions.toArray()).map(({ title, listed }) => `${title} ${listed}`).sort();
    for (const one of [a, b]) await store.keepEdition(one.entry, one.made);
    expect(await titles()).toEqual(['A -1', 'B -1']);
    await store.setList([a.entry, b.entry], []);
    expect(await titles()).toEqual(['A 0', 'B 1']);
    await db.walks.put({ id: 'w', edition: a.entry.hash, title: 'A', opened: '', changed: '', lines: 1, phase: 'work', putBack: 0 });
    await store.keepEdition(c.entry, c.made);
    const back = { hash: a.entry.hash, name: a.entry.name, at: '2026-01-15T09:00:00Z', byName: 'R. Alder', why: 'Band too wide' };
    await store.setList([c.entry], [back]);
    expect(await titles()).toEqual(['A -1', 'B -1', 'C 0']);
    await store.setList([c.entry], [back]);
    expect(await titles()).toEqual(['A -1', 'C 0']);
    expect((await db.walks.get('w'))?.edition).toBe(a.entry.hash);
    expect(await store.edition(a.entry.hash)).toEqual(a.made);
    expect(await db.crew.get('list')).toEqual({ key: 'list', entries: [c.entry], withdrawn: [back] });
  });

  it('leaves what was put here by hand, until it lists that very edition', async () => {
    const store = crewSyncStore(db, 'secret-1');
    const [mine, theirs] = [retitled('Mine'), retitled('Theirs')];
    const { from: _, ...record } = mine.entry;
    await db.editions.put({ ...record, listed: 1_000_000, from: 'file', edition: mine.made });
    await store.keepEdition(theirs.entry, theirs.made);
    await store.setList([theirs.entry], []);
    await store.setList([theirs.entry], []);
    expect(await db.editions.get(mine.entry.hash)).toMatchObject({ listed: 1_000_000, from: 'file' });
    await store.setList([mine.entry, theirs.entry], []);
    const stored = await db.editions.get(mine.entry.hash);
    expect(stored?.listed).toBe(0);
    expect(stored && 'from' in stored).toBe(false);
  });
});

describe('a device from before there was a hub', () => {
  it('keeps everything, and all of it is unsent', async () => {
    const name = `old-${count++}`;
    const driver = new WalkDriver(edition, 'walk-1').open();
    const old = new Dexie(name);
    old.version(1).stores({ editions: 'hash, listed', lines: '[walk+seq]', walks: 'id, changed', photos: 'id, walk', drafts: 'walk' });
    await old.open();
    await old.table('lines').bulkAdd([...driver.lines]);
    const walk = {
      id: 'walk-1',
      edition: edition.hash,
      title: 'T',
      opened: '',
      changed: '',
      lines: driver.lines.length,
      phase: 'opening',
      putBack: 0,
    };
    await old.table('walks').add(walk);
    old.close();
    const now = new FieldDb(name);
    expect(await now.lines.toArray()).toEqual(driver.lines);
    expect(await crewSyncStore(now).unsent()).toMatchObject([{ walk: 'walk-1', length: driver.lines.length, sent: 0 }]);
    expect(await now.crew.count()).toBe(0);
  });
});
