import { crewSyncStore } from '../storage/crew-sync-store.ts';
import type { FieldDb } from '../storage/field-db.ts';

/** What is on this device alone. `since`: when the oldest of its entries was made, ISO 8601. */
export type Unsent = { readonly entries: number; readonly photos: number; readonly drills: number; readonly since?: string };

export async function countUnsent(db: FieldDb): Promise<Unsent> {
  const store = crewSyncStore(db);
  const walks = await store.unsent();
  const drills = (await store.unsentDrillRuns()).length;
  const firsts = await db.lines.bulkGet(walks.map(({ walk, sent }): [string, number] => [walk, sent]));
  const times = firsts.flatMap((line) => (line && !Number.isNaN(Date.parse(line.time)) ? [line.time] : []));
  const since = times.sort((a, b) => Date.parse(a) - Date.parse(b))[0];
  const settled = new Set(await db.photoSync.toCollection().primaryKeys());
  const photos = (await db.photos.toCollection().primaryKeys()).filter((id) => !settled.has(id)).length;
  return { entries: walks.reduce((sum, { length, sent }) => sum + length - sent, 0), photos, drills, ...(since !== undefined && { since }) };
}
