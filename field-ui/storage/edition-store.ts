import { readEdition, type WalkableEdition, walkableEdition } from '../../engine/walk/index.ts';
import type { FieldDb } from './field-db.ts';

/** Editions of this device, ready to walk. Each is worked out once while the app is open. */
export class EditionStore {
  readonly #db: FieldDb;
  readonly #ready = new Map<string, WalkableEdition>();

  constructor(db: FieldDb) {
    this.#db = db;
  }

  /** The edition of this hash; undefined where it is not on the device, or what is stored is not that edition any more. */
  async walkable(hash: string): Promise<WalkableEdition | undefined> {
    const known = this.#ready.get(hash);
    if (known) return known;
    const stored = await this.#db.editions.get(hash).catch(() => undefined);
    const edition = stored && readEdition(stored.edition);
    if (!edition?.ok) return undefined;
    const ready = walkableEdition(edition.value);
    if (ready.hash !== hash) return undefined;
    this.#ready.set(hash, ready);
    return ready;
  }
}
