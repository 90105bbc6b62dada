import { type Edition, editionHash, editionHead } from '../../engine/walk/index.ts';
import type { FieldDb } from '../storage/field-db.ts';

/** Puts a drill's edition on this device for its drills alone: it does not come to stand among the trees to walk. What the device refuses is thrown. */
export async function keepDrillEdition(db: FieldDb, edition: Edition): Promise<string> {
  const hash = editionHash(edition);
  await db.transaction('rw', db.editions, async () => {
    if (await db.editions.get(hash)) return;
    await db.editions.put({
      hash,
      ...editionHead(edition),
      listed: -1,
      from: 'file',
      edition,
    });
  });
  return hash;
}
