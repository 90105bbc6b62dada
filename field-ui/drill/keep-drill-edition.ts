import { type Edition, editionHash, editionHead } from '../../engine/walk/index.ts';
import type { FieldDb } from '../storage/field-db.ts';
import { addUnlisted } from '../storage/unlisted-editions.ts';

/** Puts a drill's edition on this device for its drills alone: it does not come to stand among the trees to walk. What the device refuses is thrown. */
export async function keepDrillEdition(db: FieldDb, edition: Edition): Promise<string> {
  const hash = editionHash(edition);
  await db.transaction('rw', db.editions, () => addUnlisted(db, { hash, ...editionHead(edition), from: 'file', edition }));
  return hash;
}
