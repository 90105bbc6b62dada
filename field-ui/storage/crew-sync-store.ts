import type { WalkLine } from '../../engine/walk/index.ts';
import type { LocalWalk, SyncStore } from '../../shared/sync/sync-store.ts';
import type { FieldDb, StoredEdition, StoredSync, StoredWalk } from './field-db.ts';
import { addUnlisted, dropUnlisted } from './unlisted-editions.ts';

const linesOf = (db: FieldDb, walk: string, from: number, to: number) => db.lines.where('[walk+seq]').between([walk, from], [walk, to], true, false);

/**
 * What sync works on, in the field app's own tables. A line counts as sent only by `setSent`; nothing of a walk is ever changed here.
 * `token`: the membership that a list is kept for.
 */
export function crewSyncStore(db: FieldDb, token?: string): SyncStore {
  const sentOf = async (walks: readonly StoredWalk[]): Promise<readonly number[]> =>
    (await db.sync.bulkGet(walks.map(({ id }) => id))).map((entry) => entry?.sent ?? 0);

  const localWalk = async ({ id, lines }: StoredWalk, sent: number): Promise<readonly LocalWalk[]> => {
    const last: WalkLine | undefined = await db.lines.get([id, lines - 1]);
    return last ? [{ walk: id, length: lines, head: last.hash, sent: Math.min(sent, lines) }] : [];
  };

  const local = async (walks: readonly StoredWalk[], wanted: (walk: StoredWalk, sent: number) => boolean): Promise<readonly LocalWalk[]> => {
    const sent = await sentOf(walks);
    const found = walks.map((walk, at) => ({ walk, sent: sent[at] ?? 0 })).filter((one) => wanted(one.walk, one.sent));
    return (await Promise.all(found.map((one) => localWalk(one.walk, one.sent)))).flat();
  };

  const changeSync = (walk: string, change: (entry: StoredSync) => StoredSync): Promise<void> =>
    db.transaction('rw', db.sync, async () => {
      await db.sync.put(change((await db.sync.get(walk)) ?? { walk, sent: 0, notes: [] }));
    });

  return {
    unsent: () =>
      db.transaction('r', db.walks, db.sync, db.lines, async () =>
        local(await db.walks.orderBy('changed').toArray(), ({ lines }, sent) => sent < lines),
      ),
    latest: (most) =>
      db.transaction('r', db.walks, db.sync, db.lines, async () =>
        local(await db.walks.orderBy('changed').reverse().limit(most).toArray(), () => true),
      ),
    lines: (walk, from, most) => linesOf(db, walk, from, from + most).toArray(),
    setSent: (walk, count) => changeSync(walk, (entry) => ({ ...entry, sent: count })),
    note: (walk, note) =>
      changeSync(walk, (entry) => {
        const said = JSON.stringify(note);
        return entry.notes.some((one) => JSON.stringify(one) === said) ? entry : { ...entry, notes: [...entry.notes, note] };
      }),

    // A photo is stored with its line in one transaction, so every stored one has its line.
    unsentPhotos: (most) =>
      db.transaction('r', db.photos, db.photoSync, db.sync, async () => {
        const settled = new Set(await db.photoSync.toCollection().primaryKeys());
        // The hub takes a photo of a walk that it knows; sent sooner it would be refused for good.
        const known = await db.sync.filter(({ sent }) => sent > 0).primaryKeys();
        const ids = (await db.photos.where('walk').anyOf(known).primaryKeys()).filter((id) => !settled.has(id)).slice(0, most);
        return (await db.photos.bulkGet(ids)).flatMap((photo) => (photo ? [{ id: photo.id, walk: photo.walk, picture: photo.picture }] : []));
      }),
    setPhotoSent: async (id, why) => {
      await db.photoSync.put({ id, ...(why !== undefined && { why }) });
    },

    editionHashes: () => db.editions.toCollection().primaryKeys(),
    edition: async (hash) => (await db.editions.get(hash))?.edition,
    keepEdition: ({ hash, name, title, complaint, steps }, edition) =>
      db.transaction('rw', db.editions, () => addUnlisted(db, { hash, name, title, complaint, steps, edition })),
    setList: (entries, withdrawn) =>
      db.transaction('rw', db.editions, db.walks, db.crew, db.drillTasks, db.drillRuns, async () => {
        // It may have left, or joined anew, while the list was on its way.
        const membership = await db.crew.get('membership');
        if (membership?.key !== 'membership' || membership.token !== token) return;
        const listed = new Map(
          entries.map(({ hash, name, title, complaint, steps }, at) => [hash, { hash, name, title, complaint, steps, listed: at }]),
        );
        const named = await dropUnlisted(db, (hash) => listed.has(hash));
        await db.editions.bulkPut(
          named.flatMap(({ from: _, ...old }): StoredEdition[] => {
            const entry = listed.get(old.hash);
            // What was put here by hand is the crew's from now on.
            return entry ? [{ ...old, ...entry }] : [];
          }),
        );
        await db.crew.put({ key: 'list', entries, withdrawn });
      }),

    drills: () => db.drillTasks.toArray(),
    keepDrills: (drills) =>
      db.transaction('rw', db.drillTasks, db.drillRuns, async () => {
        const begun = new Set((await db.drillRuns.toArray()).map(({ drill }) => drill));
        const now = new Date().toISOString();
        // A drill that was begun is known for as long as what came of it: it can be ended, and sent.
        const stopped = (await db.drillTasks.toArray())
          .filter(({ task }) => begun.has(task.id) && !drills.some((one) => one.task.id === task.id))
          .map((one) => ({ ...one, stopped: one.stopped ?? now }));
        await db.drillTasks.clear();
        await db.drillTasks.bulkPut([...stopped, ...drills]);
      }),
    unsentDrillRuns: () =>
      db.transaction('r', db.drillTasks, db.drillRuns, async () => {
        const ended = (await db.drillRuns.toArray()).filter((one) => one.ended && one.sent !== true);
        // What someone practised alone is nobody else's.
        const given = new Set(await db.drillTasks.toCollection().primaryKeys());
        return ended.filter(({ drill }) => given.has(drill)).map(({ id, drill, run }) => ({ id, drill, run }));
      }),
    drillRunSent: async (id, why) => {
      await db.drillRuns.update(id, { sent: true, ...(why !== undefined && { why }) });
    },
  };
}
