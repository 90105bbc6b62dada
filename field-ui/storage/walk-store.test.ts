import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { walkableEdition } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';
import { EditionStore } from './edition-store.ts';
import { FieldDb } from './field-db.ts';
import { storageProblem } from './storage-problem.ts';
import { walkStore } from './walk-store.ts';

const edition = walkableEdition(smallEdition());
let count = 0;
let db: FieldDb;
beforeEach(() => {
  db = new FieldDb(`test-${count++}`);
});

async function kept(driver: WalkDriver) {
  const store = walkStore(db);
  const replayed = new WalkDriver(edition, driver.walk.id);
  for (const line of driver.lines) {
    replayed.send(line.event);
    expect(await store.append(replayed.walk, replayed.lines.at(-1) ?? line)).toEqual({ ok: true, value: undefined });
  }
  return store;
}

describe('stored walks', () => {
  it('come back line for line and in order, beside others', async () => {
    const one = new WalkDriver(edition, 'walk-1').open();
    const other = new WalkDriver(edition, 'walk-10').open().tell('wiring', 'own').read('27');
    await kept(other);
    const store = await kept(one);
    expect(await store.lines('walk-1')).toEqual({ ok: true, value: one.lines });
    expect(await store.lines('walk-10')).toEqual({ ok: true, value: other.lines });
    expect(await store.lines('walk')).toEqual({ ok: true, value: [] });
  });

  it('are listed as they stand', async () => {
    await kept(new WalkDriver(edition, 'walk-1').open().tell('wiring', 'own').read('27').act());
    expect(await db.walks.get('walk-1')).toMatchObject({ title: 'No water at the pad', phase: 'work', step: 'Water runs', putBack: 1, lines: 8 });
  });

  it('never replace a line that is there: the second writer is told', async () => {
    const driver = new WalkDriver(edition, 'walk-1').open();
    const store = await kept(driver);
    const last = driver.lines.at(-1);
    if (!last) throw new Error('no line');
    expect(await store.append(driver.walk, { ...last, time: '2030-01-01T00:00:00.000+00:00' })).toEqual({
      ok: false,
      problem: { code: 'written-elsewhere' },
    });
    expect(await store.lines('walk-1')).toEqual({ ok: true, value: driver.lines });
  });

  it('keep a photo with its line or neither', async () => {
    const driver = new WalkDriver(edition, 'walk-1').open();
    const store = await kept(driver);
    const photo = { id: 'photo-1', walk: 'walk-1', taken: '2026-01-15T09:00:00.000+00:00', picture: new Blob(['x']) };
    await db.photos.add(photo);
    driver.must({ type: 'photographed', photo: 'photo-1' });
    const line = driver.lines.at(-1);
    if (!line) throw new Error('no line');
    expect((await store.append(driver.walk, line, photo)).ok).toBe(false);
    expect(await db.lines.count()).toBe(driver.lines.length - 1);
  });

  it('put their edition back with the first line, where a new list took it away meanwhile', async () => {
    await kept(new WalkDriver(edition, 'walk-1').open());
    expect(await db.editions.get(edition.hash)).toMatchObject({ name: 'dry-pad', listed: -1, edition: smallEdition() });
    await db.editions.update(edition.hash, { listed: 3 });
    await kept(new WalkDriver(edition, 'walk-2').open());
    expect(await db.editions.get(edition.hash)).toMatchObject({ listed: 3 });
    expect(await db.editions.count()).toBe(1);
  });

  it('drop the half-typed entry with the reading that replaces it', async () => {
    const driver = new WalkDriver(edition, 'walk-1').open().tell('wiring', 'own');
    const store = await kept(driver);
    await store.keepDraft({ walk: 'walk-1', at: 'power', text: '27.' });
    expect(await store.draft('walk-1')).toEqual({ walk: 'walk-1', at: 'power', text: '27.' });
    driver.must({ type: 'read', typed: '27.4' });
    const line = driver.lines.at(-1);
    if (line) await store.append(driver.walk, line);
    expect(await store.draft('walk-1')).toBeUndefined();
  });
});

describe('stored editions', () => {
  it('are walkable by their hash, and only while they are that edition', async () => {
    const record = { name: 'dry-pad', title: '', complaint: '', steps: 1, listed: 0 };
    await db.editions.put({ ...record, hash: edition.hash, edition: smallEdition() });
    await db.editions.put({ ...record, hash: 'f'.repeat(64), edition: smallEdition() });
    const store = new EditionStore(db);
    expect((await store.walkable(edition.hash))?.hash).toBe(edition.hash);
    expect(await store.walkable('f'.repeat(64))).toBeUndefined();
    expect(await store.walkable('0'.repeat(64))).toBeUndefined();
  });
});

describe('what a storage error means', () => {
  it.each([
    [new DOMException('full', 'QuotaExceededError'), 'out-of-space'],
    [{ name: 'AbortError', inner: new DOMException('full', 'QuotaExceededError') }, 'out-of-space'],
    [{ name: 'BulkError', failures: [{ name: 'QuotaExceededError' }] }, 'out-of-space'],
    [{ name: 'ConstraintError' }, 'written-elsewhere'],
    [{ name: 'VersionError' }, 'newer-version'],
    [new Error('gone'), 'not-available'],
    ['odd', 'not-available'],
    [undefined, 'not-available'],
  ])('%s', (error, code) => expect(storageProblem(error).code).toBe(code));
});
