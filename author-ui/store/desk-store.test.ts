import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { failure, type Result, success } from '../../engine/result.ts';
import type { FetchProblem, Sources } from '../data/fetch-sources.ts';
import { type DeskDb, openDeskDb } from './desk-db.ts';
import { deskRescue } from './desk-rescue.ts';
import { DeskStore } from './desk-store.ts';

const PATH = 'no-heat.tree.mdx';
const SHIPPED: Sources = { trees: { 'no-heat': 'as shipped' }, benches: { 'heat-call': 'a bench' }, figures: {}, editions: [] };
const DOWN: Result<Sources, FetchProblem> = failure({ code: 'no-answer', path: '/trees/' });

let names = 0;
let name = '';
let clock = 0;
let open: { db: DeskDb; channel: BroadcastChannel }[] = [];

beforeEach(() => {
  names += 1;
  name = `desk-${names}`;
});

afterEach(() => {
  for (const { db, channel } of open) {
    db.close();
    channel.close();
  }
  open = [];
});

/** A window of the desk on the storage of this test. */
async function openWindow(shipped: Result<Sources, FetchProblem> = success(SHIPPED)): Promise<{ store: DeskStore; db: DeskDb }> {
  const db = openDeskDb(name);
  const channel = new BroadcastChannel(name);
  open.push({ db, channel });
  const store = new DeskStore({ db, channel, fetchShipped: async () => shipped, now: () => (clock += 10_000) });
  await store.start();
  return { store, db };
}

const text = (store: DeskStore, path = PATH): string | undefined => store.files().get(path)?.text;
const until = async (held: () => boolean): Promise<void> => {
  for (let turn = 0; turn < 200 && !held(); turn += 1) await new Promise((resolve) => setTimeout(resolve, 5));
};

describe('a window that is closed in the middle of saving', () => {
  /** A storage that takes everything at once, as a browser's local storage does. */
  function storage(): Storage {
    const kept = new Map<string, string>();
    return {
      get length() {
        return kept.size;
      },
      key: (index) => [...kept.keys()][index] ?? null,
      getItem: (key) => kept.get(key) ?? null,
      setItem: (key, value) => void kept.set(key, value),
      removeItem: (key) => void kept.delete(key),
      clear: () => kept.clear(),
    };
  }

  async function open1(place: Storage, window: string): Promise<DeskStore> {
    const db = openDeskDb(name);
    const channel = new BroadcastChannel(name);
    open.push({ db, channel });
    const rescue = deskRescue(place, name, window);
    const store = new DeskStore({ db, channel, rescue, fetchShipped: async () => success(SHIPPED), now: () => (clock += 10_000) });
    await store.start();
    await store.settled();
    return store;
  }

  test('leaves what it has not saved, and the next one takes it up, the last letter too', async () => {
    const place = storage();
    const store = await open1(place, 'one');
    store.write(PATH, 'h', 'Edit');
    store.write(PATH, 'half a wor', 'Edit');
    store.leave();
    expect(place.length).toBe(1);
    const next = await open1(place, 'two');
    expect(text(next)).toBe('half a wor');
    expect([...next.files().keys()].filter((path) => path.includes('copy'))).toEqual([]);
    expect(place.length).toBe(0);
  });

  test('leaves nothing where everything is saved', async () => {
    const place = storage();
    const store = await open1(place, 'one');
    store.write(PATH, 'mine', 'Edit');
    await store.settled();
    store.leave();
    expect(place.length).toBe(0);
  });

  test('has its text kept beside what another window has written since', async () => {
    const place = storage();
    const store = await open1(place, 'one');
    store.write(PATH, 'mine', 'Edit');
    store.leave();
    await store.settled();
    const other = await open1(storage(), 'other');
    other.write(PATH, 'theirs', 'Edit');
    await other.settled();
    const next = await open1(place, 'two');
    expect(text(next)).toBe('theirs');
    expect(text(next, 'no-heat-copy.tree.mdx')).toBe('mine');
  });
});

describe('what is written', () => {
  test('is there after the window was closed, also without the service', async () => {
    const { store } = await openWindow();
    store.write(PATH, 'mine', 'Edit');
    store.write('benches/new.bench.yaml', 'b', 'New bench');
    expect(store.snapshot().save.state).toBe('saving');
    await store.settled();
    expect(store.snapshot().save.state).toBe('saved');
    const { store: later } = await openWindow(DOWN);
    expect(later.snapshot().load.state).toBe('ready');
    expect(text(later)).toBe('mine');
    expect(later.files().get(PATH)?.base).toBe('as shipped');
    expect(text(later, 'benches/new.bench.yaml')).toBe('b');
  });

  test('counts as saved only when it is on the disk', async () => {
    const { store, db } = await openWindow();
    const states: string[] = [];
    store.subscribe(async () => {
      if (store.snapshot().save.state === 'saved') states.push((await db.files.get(PATH))?.text ?? '');
    });
    store.write(PATH, 'one', 'Edit');
    store.write(PATH, 'two', 'Edit');
    await store.settled();
    await until(() => states.length > 0);
    expect(new Set(states)).toEqual(new Set(['two']));
  });

  test('is lost neither when the storage is full nor when it is freed', async () => {
    const { store, db } = await openWindow();
    const put = db.files.put.bind(db.files);
    db.files.put = () => {
      throw new DOMException('No room', 'QuotaExceededError');
    };
    store.write(PATH, 'mine', 'Edit');
    await store.settled();
    expect(store.snapshot().save).toMatchObject({ state: 'failed', why: 'full', paths: [PATH] });
    expect(text(store)).toBe('mine');
    db.files.put = put;
    await store.retry();
    expect(store.snapshot().save.state).toBe('saved');
    expect((await db.files.get(PATH))?.text).toBe('mine');
  });

  test('nothing stored and no service is told, and comes when it answers', async () => {
    const answers = [DOWN];
    const db = openDeskDb(name);
    open.push({ db, channel: new BroadcastChannel(name) });
    const store = new DeskStore({ db, fetchShipped: async () => answers.shift() ?? success(SHIPPED), now: () => 0 });
    await store.start();
    expect(store.snapshot().load).toMatchObject({ state: 'failed', problem: { code: 'no-answer' } });
    await store.refresh();
    expect(text(store)).toBe('as shipped');
  });
});

describe('undo and redo', () => {
  test('go over every file, one history, with the label of what comes next', async () => {
    const { store } = await openWindow();
    store.write(PATH, 'one', 'First');
    store.remove('benches/heat-call.bench.yaml', 'Second');
    store.rename(PATH, 'heat.tree.mdx', 'Third');
    expect([...store.files().keys()]).toEqual(['heat.tree.mdx']);
    expect(store.canUndo).toBe('Third');
    store.undo();
    store.undo();
    expect(store.canRedo).toBe('Second');
    expect(text(store, 'benches/heat-call.bench.yaml')).toBe('a bench');
    store.undo();
    expect(text(store)).toBe('as shipped');
    expect(store.canUndo).toBeUndefined();
    store.redo();
    store.redo();
    store.redo();
    expect(text(store, 'heat.tree.mdx')).toBe('one');
    await store.settled();
    const { store: later } = await openWindow();
    expect([...later.files().keys()]).toEqual(['heat.tree.mdx']);
    expect(later.snapshot().removed.map(({ path }) => path)).toEqual(['benches/heat-call.bench.yaml', PATH]);
  });

  test('a path that is taken is not renamed to', async () => {
    const { store } = await openWindow();
    store.write('other.tree.mdx', 'x', 'New');
    expect(store.rename(PATH, 'other.tree.mdx', 'Rename')).toBe(false);
    expect(text(store, 'other.tree.mdx')).toBe('x');
  });
});

describe('two windows', () => {
  test('one that is open follows what the other saves, and says so', async () => {
    const [{ store: one }, { store: two }] = [await openWindow(), await openWindow()];
    two.hold(PATH);
    one.hold(PATH);
    await until(() => two.snapshot().notices.length > 0 && one.snapshot().notices.length > 0);
    expect(one.snapshot().notices).toEqual([{ code: 'open-elsewhere', path: PATH }]);
    one.write(PATH, 'from one', 'Edit');
    await until(() => text(two) === 'from one');
    expect(text(two)).toBe('from one');
    expect(two.snapshot().notices.map(({ code }) => code)).toEqual(['open-elsewhere', 'followed']);
  });

  test('that write at once keep both texts, under two names', async () => {
    const [{ store: one }, { store: two }] = [await openWindow(), await openWindow()];
    one.write(PATH, 'from one', 'Edit');
    two.write(PATH, 'from two', 'Edit');
    await Promise.all([one.settled(), two.settled()]);
    const { store: later } = await openWindow();
    const texts = [text(later), text(later, 'no-heat-copy.tree.mdx')];
    expect(texts.toSorted()).toEqual(['from one', 'from two']);
    const told = [...one.snapshot().notices, ...two.snapshot().notices].filter(({ code }) => code === 'kept-both');
    expect(told).toEqual([{ code: 'kept-both', path: PATH, copy: 'no-heat-copy.tree.mdx' }]);
  });

  test('keeping both texts takes nothing back of what is typed meanwhile, there and elsewhere', async () => {
    const [{ store: one }, { store: two, db }] = [await openWindow(), await openWindow()];
    one.write(PATH, 'from one', 'Edit');
    await one.settled();
    // The other window's look at the storage is held, and typed into on the way.
    const get = db.files.toCollection.bind(db.files);
    let typed = false;
    db.files.toCollection = () => {
      if (!typed) queueMicrotask(() => two.write('other.tree.mdx', 'typed meanwhile', 'Edit'));
      typed = true;
      return get();
    };
    two.write(PATH, 'from two', 'Edit');
    await two.settled();
    expect(typed).toBe(true);
    expect(text(two, 'other.tree.mdx')).toBe('typed meanwhile');
    expect((await db.files.get('other.tree.mdx'))?.text).toBe('typed meanwhile');
    expect(text(two, 'no-heat-copy.tree.mdx')).toBe('from two');
  });

  test('that have looked at a changed file unequally often write it under its own name', async () => {
    let shipped = SHIPPED;
    const openLooking = async (): Promise<DeskStore> => {
      const db = openDeskDb(name);
      const channel = new BroadcastChannel(name);
      open.push({ db, channel });
      const store = new DeskStore({ db, channel, fetchShipped: async () => success(shipped), now: () => (clock += 10_000) });
      await store.start();
      return store;
    };
    const [one, two] = [await openLooking(), await openLooking()];
    for (const changed of ['second', 'third']) {
      shipped = { ...SHIPPED, trees: { 'no-heat': changed } };
      await one.refresh();
    }
    await two.refresh();
    two.write(PATH, 'typed in two', 'Edit');
    await two.settled();
    expect([...two.files().keys()].toSorted()).toEqual([...one.files().keys()].toSorted());
    expect(text(two)).toBe('typed in two');
    expect(two.snapshot().notices).toEqual([]);
    await until(() => text(one) === 'typed in two');
    expect(text(one)).toBe('typed in two');
  });

  test('a step is not taken back over what the other has written since', async () => {
    const [{ store: one }, { store: two }] = [await openWindow(), await openWindow()];
    one.write(PATH, 'from one', 'First');
    await one.settled();
    await until(() => text(two) === 'from one');
    two.write(PATH, 'from two', 'Second');
    await two.settled();
    await until(() => text(one) === 'from two');
    one.undo();
    expect(text(one)).toBe('from two');
    expect(one.snapshot().notices).toContainEqual({ code: 'not-undone', path: PATH, label: 'First' });
  });
});
