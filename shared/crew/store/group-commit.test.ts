import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { inGroup } from './group-commit.ts';
import { type HubStore, type HubTx, openStore, sqliteDriver } from './open-store.ts';

const folder = mkdtempSync(join(tmpdir(), 'ohmward-group-'));
const open: HubStore[] = [];
afterAll(async () => {
  for (const store of open) await store.close();
  rmSync(folder, { recursive: true });
});

async function storeAt(name: string): Promise<{ store: HubStore; file: string; commits: () => number; seen: () => string[] }> {
  const file = join(folder, name);
  const store = await openStore({ sqlite: file });
  open.push(store);
  let commits = 0;
  const { sqlite } = store;
  if (!sqlite) throw new Error('no SQLite');
  const prepare = sqlite.prepare.bind(sqlite);
  sqlite.prepare = ((text: string) => {
    if (text === 'commit') commits += 1;
    return prepare(text);
  }) as typeof sqlite.prepare;
  // What another program sees is what was committed.
  const other = new (sqliteDriver())(file, { readonly: true });
  open.push({ close: async () => void other.close() } as HubStore);
  return { store, file, commits: () => commits, seen: () => other.prepare('select what from audit order by id').pluck().all() as string[] };
}

const note = (what: string) => async (tx: HubTx) => {
  await tx.insertInto('audit').values({ at: '2026', person: null, device: null, what, about: null, details: null }).execute();
  return what;
};

test('what comes at once is committed together, and none is answered before it is there for others', async () => {
  const { store, commits, seen } = await storeAt('together.sqlite');
  const before = commits();
  const answered = await Promise.all(
    Array.from({ length: 40 }, (_, n) =>
      inGroup(store, note(`n${n}`)).then((what) => {
        expect(seen()).toContain(what);
        return what;
      }),
    ),
  );
  expect(answered).toEqual(Array.from({ length: 40 }, (_, n) => `n${n}`));
  expect(seen().sort()).toEqual([...answered].sort());
  expect(commits() - before).toBe(1);
});

test('one that fails takes nothing of the others with it, and leaves nothing of its own', async () => {
  const { store, seen } = await storeAt('failing.sqlite');
  const failing = inGroup(store, async (tx) => {
    await note('half')(tx);
    await tx.insertInto('walk_hand').values({ walk: 'none', person: 'nobody' }).execute();
  });
  const throwing = inGroup(store, async (tx) => {
    await note('half too')(tx);
    throw new Error('its own');
  });
  const answers = await Promise.allSettled([inGroup(store, note('a')), failing, inGroup(store, note('b')), throwing, inGroup(store, note('c'))]);
  expect(answers.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled', 'rejected', 'fulfilled']);
  expect(seen()).toEqual(['a', 'b', 'c']);
});

test('a group that cannot be had as one is done one by one', async () => {
  const { store, seen } = await storeAt('broken.sqlite');
  let tries = 0;
  // The first time it takes the whole transaction with it, as a full disk does.
  const breaking = inGroup(store, async (tx) => {
    tries += 1;
    if (tries === 1) store.sqlite?.exec('rollback');
    return note('late')(tx);
  });
  expect(await Promise.all([inGroup(store, note('a')), breaking, inGroup(store, note('b'))])).toEqual(['a', 'late', 'b']);
  // Whatever was written after the transaction was gone is of no group; each is there all the same.
  expect(new Set(seen())).toEqual(new Set(['a', 'late', 'b']));
});

test('more than one group’s worth is all there', async () => {
  const { store, seen } = await storeAt('many.sqlite');
  await Promise.all(Array.from({ length: 300 }, (_, n) => inGroup(store, note(`n${n}`))));
  expect(new Set(seen()).size).toBe(300);
  expect(seen()).toHaveLength(300);
});
