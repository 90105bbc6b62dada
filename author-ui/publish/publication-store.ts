import Dexie, { type EntityTable } from 'dexie';
import type { Publication } from '../../shared/device/publication.ts';

/** A publication with what a list of them shows. */
export type StoredPublication = Publication & { readonly name: string; readonly title: string; readonly steps: number };

/** What was published in this browser. Apart from the desk's files, which go on changing: nothing in here ever does. */
export type PublicationDb = Dexie & {
  readonly publications: EntityTable<StoredPublication, 'hash'>;
  readonly bases: EntityTable<CrewBase, 'tree'>;
};

/** The crew's edition that a tree on this desk was last made from: it was published from here, or taken onto this desk, or gone after on purpose. */
export type CrewBase = { readonly tree: string; readonly hash: string };

export function openPublicationDb(name = 'ohmward-publications'): PublicationDb {
  const db = new Dexie(name, { chromeTransactionDurability: 'strict' });
  db.version(1).stores({ publications: 'hash, name' });
  db.version(2).stores({ publications: 'hash, name', bases: 'tree' });
  return db as PublicationDb;
}

/** Every publication of a tree, latest first. */
export async function publicationsOf(db: PublicationDb, name: string): Promise<readonly StoredPublication[]> {
  const found = await db.publications.where('name').equals(name).toArray();
  return found.sort((a, b) => (a.at < b.at ? 1 : -1));
}

/** Keeps a publication; one that is there already stays as it is. */
export async function keepPublication(db: PublicationDb, publication: Publication): Promise<void> {
  const { root, trees } = publication.edition;
  const tree = trees[root];
  await db.transaction('rw', db.publications, async () => {
    if (await db.publications.get(publication.hash)) return;
    await db.publications.add({ ...publication, name: root, title: tree?.title ?? root, steps: tree?.steps.length ?? 0 });
  });
}
