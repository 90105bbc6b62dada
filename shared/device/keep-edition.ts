import { type Edition, editionHash, editionHead } from '../../engine/walk/index.ts';
import type { FieldDb, StoredEdition } from './field-db.ts';

/** After everything on the crew's list. */
const BY_HAND = 1_000_000;

/**
 * Puts an edition on this device, to be walked without a signal; answers its hash. One of the same tree that was put here by hand before
 * leaves the list and stays for its walks. What the device refuses is thrown, as the storage words it.
 */
export async function keepEdition(db: FieldDb, edition: Edition, from: NonNullable<StoredEdition['from']>): Promise<string> {
  const hash = editionHash(edition);
  await db.transaction('rw', db.editions, async () => {
    const stored = await db.editions.get(hash);
    if (stored && stored.listed >= 0 && stored.from === undefined) return;
    await db.editions.filter((one) => one.name === edition.root && one.from !== undefined && one.hash !== hash).modify({ listed: -1 });
    await db.editions.put({
      hash,
      ...editionHead(edition),
      listed: BY_HAND,
      from,
      edition,
    });
  });
  return hash;
}
