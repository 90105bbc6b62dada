import { type Edition, editionHash, readEdition } from '../../../engine/walk/index.ts';
import type { HubClient } from '../../../shared/sync/hub-client.ts';
import type { PublicationDb } from '../../publish/publication-store.ts';
import type { WalksDb } from './walks-db.ts';

export type EditionPlaces = {
  readonly walks: WalksDb;
  readonly published: PublicationDb;
  readonly fetchPath: (path: string) => Promise<Response>;
  /** Where this desk is in a crew. */
  readonly hub?: Pick<HubClient, 'edition'>;
};

/** Looks an edition up wherever this desk can: opened here, published here, given by the service, kept by the crew's hub. Its contents are held against its name. */
export async function findEdition(hash: string, { walks, published, fetchPath, hub }: EditionPlaces): Promise<Edition | undefined> {
  // Storage that cannot be read has nothing: the edition may still be had elsewhere.
  const kept =
    (await walks.editions.get(hash).catch(() => undefined))?.edition ?? (await published.publications.get(hash).catch(() => undefined))?.edition;
  if (kept) return kept;
  const found = (await fetched(hash, fetchPath)) ?? (await fromHub(hash, hub));
  // Only so that the walk can be replayed without a signal too.
  if (found) await walks.editions.put({ hash, edition: found }).catch(() => undefined);
  return found;
}

async function fetched(hash: string, fetchPath: EditionPlaces['fetchPath']): Promise<Edition | undefined> {
  try {
    const response = await fetchPath(`/editions/${hash}.json`);
    if (!response.ok) return undefined;
    const read = readEdition(await response.json());
    return read.ok && editionHash(read.value) === hash ? read.value : undefined;
  } catch {
    return undefined;
  }
}

async function fromHub(hash: string, hub: EditionPlaces['hub']): Promise<Edition | undefined> {
  const answered = await hub?.edition(hash);
  return answered?.ok ? answered.value : undefined;
}
