import 'fake-indexeddb/auto';
import { expect, test } from 'vitest';
import { walkableEdition } from '../../../engine/walk/index.ts';
import { smallEdition } from '../../../engine/walk/testing/small-edition.ts';
import { WalkDriver } from '../../../engine/walk/testing/walk-driver.ts';
import { keepOpened } from './keep-opened.ts';
import { localSource, PAGE, removeKept } from './walk-source.ts';
import { openWalksDb } from './walks-db.ts';

const EDITION = smallEdition();
const WALKABLE = walkableEdition(EDITION);
const NOW = '2026-02-01T00:00:00.000Z';
let opened = 0;
function freshDb() {
  opened += 1;
  return openWalksDb(`walks-${opened}`);
}

const openCall = (id: string): string =>
  new WalkDriver(WALKABLE, id)
    .open()
    .lines.map((line) => JSON.stringify(line))
    .join('\n');

test('logs opened before their edition are known once it is opened too', async () => {
  const db = freshDb();
  const none = async () => undefined;
  const first = await keepOpened(db, [{ name: 'a.jsonl', text: openCall('a') }], none, NOW);
  expect(first).toMatchObject({ walks: 1, editions: 0, editionless: [WALKABLE.hash] });
  const second = await keepOpened(db, [{ name: 'e.json', text: JSON.stringify(EDITION) }], none, NOW);
  expect(second).toMatchObject({ walks: 0, editions: 1, editionless: [] });
  expect((await db.walks.get('a'))?.summary).toMatchObject({ tree: EDITION.root, flags: [] });
});

test('a list is given page by page until it is at its end', async () => {
  const db = freshDb();
  const files = Array.from({ length: PAGE + 3 }, (_, n) => ({ name: `${n}`, text: openCall(`w${n}`) }));
  await keepOpened(db, files, async () => EDITION, NOW);
  const source = localSource(db, () => NOW);
  const first = await source.list({});
  if (!first.ok) throw new Error('no list');
  expect(first.value.walks).toHaveLength(PAGE);
  const second = await source.list({}, first.value.next);
  expect(second.ok && second.value.walks).toHaveLength(3);
  expect(second.ok && second.value.next).toBeUndefined();
  expect(second.ok && second.value.walks.some(({ walk }) => first.value.walks.some((one) => one.walk === walk))).toBe(false);
});

test('confirmed faults are counted over the calls of every tree, as last said', async () => {
  const db = freshDb();
  const files = ['a', 'b', 'c'].map((id) => ({ name: id, text: openCall(id) }));
  await keepOpened(db, files, async () => EDITION, NOW);
  const source = localSource(db, () => NOW);
  for (const walk of ['a', 'b', 'c']) await source.say(walk, { held: true, bench: 'own', fault: 'coil' });
  await source.say('b', { held: false, bench: 'own', fault: 'feed' });
  await source.say('c', {});
  expect(await source.confirmedFaults()).toEqual({
    ok: true,
    value: [
      { bench: 'own', fault: 'coil', times: 1 },
      { bench: 'own', fault: 'feed', times: 1 },
    ],
  });
});

test('what is said of a finding holds until it is taken back, and all of it stays told', async () => {
  const db = freshDb();
  await keepOpened(db, [{ name: 'a', text: openCall('a') }], async () => EDITION, NOW);
  const source = localSource(db, () => NOW);
  await source.say('a', { held: false, bench: 'own', fault: 'coil', note: 'It was the coil.' });
  expect((await db.walks.get('a'))?.summary.confirmation).toEqual({ held: false, bench: 'own', fault: 'coil' });
  // A fault's name says nothing without its bench.
  await source.say('a', { held: false, fault: 'coil' });
  expect((await db.walks.get('a'))?.summary.confirmation).toEqual({ held: false });
  await source.say('a', {});
  expect((await db.walks.get('a'))?.summary.confirmation).toBeUndefined();
  const said = await source.said('a');
  expect(said.ok && said.value.map(({ held, note }) => [held, note])).toEqual([
    [undefined, undefined],
    [false, undefined],
    [false, 'It was the coil.'],
  ]);
});

test('opened again, a walk keeps what was said of it; removed, nothing of it stays', async () => {
  const db = freshDb();
  const file = [{ name: 'a', text: openCall('a') }];
  await keepOpened(db, file, async () => EDITION, NOW);
  const source = localSource(db, () => NOW);
  await source.say('a', { held: true });
  await keepOpened(db, file, async () => EDITION, NOW);
  expect((await db.walks.get('a'))?.summary.confirmation).toEqual({ held: true });
  await removeKept(db, 'a');
  expect(await source.log('a')).toEqual({ ok: false, problem: { code: 'not-kept' } });
  expect(await db.confirmations.count()).toBe(0);
});

test('storage that cannot be read or written is told by every question, and throws in none', async () => {
  const db = freshDb();
  await keepOpened(db, [{ name: 'a', text: openCall('a') }], async () => EDITION, NOW);
  db.close();
  const source = localSource(db, () => NOW);
  const told = { ok: false, problem: { code: 'browser-storage', detail: expect.stringContaining('DatabaseClosedError') } };
  expect(await source.list({})).toEqual(told);
  expect(await source.log('a')).toEqual(told);
  expect(await source.said('a')).toEqual(told);
  expect(await source.say('a', { held: true })).toEqual(told);
  expect(await source.confirmedFaults()).toEqual(told);
  expect(await removeKept(db, 'a')).toEqual(told);
});
