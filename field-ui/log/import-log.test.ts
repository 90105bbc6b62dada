import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { walkableEdition } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';
import { EditionStore } from '../storage/edition-store.ts';
import { FieldDb } from '../storage/field-db.ts';
import { importLog } from './import-log.ts';
import { importWords } from './import-words.ts';
import { logFileText } from './log-file.ts';

const edition = walkableEdition(smallEdition());
let count = 0;
let db: FieldDb;
let editions: EditionStore;
beforeEach(async () => {
  db = new FieldDb(`import-${count++}`);
  editions = new EditionStore(db);
  await db.editions.put({ hash: edition.hash, name: 'dry-pad', title: '', complaint: '', steps: 1, listed: 0, edition: smallEdition() });
});

const call = () => new WalkDriver(edition, 'walk-1').open().tell('wiring', 'own').read('27');

describe('a log file', () => {
  it('is taken in whole, once, and lengthened by a longer one', async () => {
    const short = call();
    expect(await importLog(db, editions, logFileText(short.lines))).toEqual({ ok: true, value: { walk: 'walk-1', lines: 7, added: 7 } });
    expect(await importLog(db, editions, logFileText(short.lines))).toMatchObject({ ok: true, value: { added: 0 } });
    const longer = call().act().look('runs');
    expect(await importLog(db, editions, logFileText(longer.lines))).toMatchObject({ ok: true, value: { added: 3 } });
    expect(await db.lines.toArray()).toEqual(longer.lines);
    expect(await db.walks.get('walk-1')).toMatchObject({ phase: 'finding', lines: 10 });
    // The shorter one again takes nothing away.
    expect(await importLog(db, editions, logFileText(short.lines))).toMatchObject({ ok: true, value: { added: 0 } });
    expect(await db.lines.count()).toBe(10);
  });

  it('brings its edition back where a new list took it away meanwhile', async () => {
    await editions.walkable(edition.hash);
    await db.editions.clear();
    expect((await importLog(db, editions, logFileText(call().lines))).ok).toBe(true);
    expect(await db.editions.get(edition.hash)).toMatchObject({ listed: -1 });
  });

  const text = () => logFileText(call().lines);
  it.each([
    ['an empty file', () => '\n\n', 'no-lines'],
    ['something else', () => '{"a":1}\n', 'not-a-log'],
    ['a changed line', () => text().replace('"typed":"27"', '"typed":"28"'), 'not-trusted'],
    ['a line cut short', () => text().slice(0, -40), 'not-trusted'],
    ['a line missing', () => text().split('\n').toSpliced(2, 1).join('\n'), 'not-trusted'],
    ['another edition', () => text().replaceAll(edition.hash, 'e'.repeat(64)), 'edition-missing'],
  ])('is refused whole: %s', async (_, make, code) => {
    const imported = await importLog(db, editions, make());
    expect(imported).toMatchObject({ ok: false, problem: { code } });
    if (!imported.ok) expect(importWords(imported.problem)).toContain('Nothing on this device was changed');
    expect(await db.lines.count()).toBe(0);
    expect(await db.walks.count()).toBe(0);
  });

  it('is refused where the device has another story of the same call', async () => {
    await importLog(db, editions, text());
    const other = new WalkDriver(edition, 'walk-1').open().tell('wiring', 'shared').read('0.1');
    expect(await importLog(db, editions, logFileText(other.lines))).toEqual({ ok: false, problem: { code: 'other-here', line: 3 } });
    expect(await db.lines.toArray()).toEqual(call().lines);
  });
});
