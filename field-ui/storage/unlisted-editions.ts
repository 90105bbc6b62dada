import { editionHead, type WalkableEdition } from '../../engine/walk/index.ts';
import type { FieldDb, StoredEdition } from './field-db.ts';
import { neededEditions } from './needed-editions.ts';

/** Keeps an edition that is on no list, or not yet; one that is here already stays as it is. */
export async function addUnlisted({ editions }: Pick<FieldDb, 'editions'>, edition: Omit<StoredEdition, 'listed'>): Promise<void> {
  if ((await editions.where('hash').equals(edition.hash).count()) > 0) return;
  await editions.put({ ...edition, listed: -1 });
}

/** Puts the edition of a walk back where a new list took it away while it was open on a screen. Called in the transaction that writes the walk's lines. */
export const keepNeeded = (db: FieldDb, { hash, compiled: { edition } }: WalkableEdition): Promise<void> =>
  addUnlisted(db, { hash, ...editionHead(edition), edition });

/**
 * Takes off the list what a new one does not name; what was put here by hand stays as it is. Deleted is only what the list before had dropped
 * already and nothing needs: a call may be about to be opened on what is dropped now. In the transaction that keeps the new list.
 * `stays`: an edition that stays listed although it is not named. Answers the stored editions that are named.
 */
export async function dropUnlisted(
  db: Pick<FieldDb, 'editions' | 'walks' | 'drillTasks' | 'drillRuns'>,
  isNamed: (hash: string) => boolean,
  stays: (edition: StoredEdition) => boolean = () => false,
): Promise<readonly StoredEdition[]> {
  const needed = await neededEditions(db);
  const stored = await db.editions.toArray();
  for (const old of stored) {
    if (isNamed(old.hash) || old.from !== undefined) continue;
    if (old.listed < 0) {
      if (!needed.has(old.hash)) await db.editions.delete(old.hash);
    } else if (!stays(old)) await db.editions.put({ ...old, listed: -1 });
  }
  return stored.filter(({ hash }) => isNamed(hash));
}
