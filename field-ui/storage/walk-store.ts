import { failure, type Result, success } from '../../engine/result.ts';
import type { Walk, WalkLine } from '../../engine/walk/index.ts';
import type { FieldDb, StoredDraft, StoredPhoto } from './field-db.ts';
import { type StorageProblem, storageProblem } from './storage-problem.ts';
import { keepNeeded } from './unlisted-editions.ts';
import { walkSummary } from './walk-summary.ts';

/** The durable side of walks. Every method answers with a problem instead of throwing. */
export type WalkStore = {
  /** Writes a line, and the photo it names; resolves when both are on the disk. */
  append(walk: Walk, line: WalkLine, photo?: StoredPhoto): Promise<Result<void, StorageProblem>>;
  /** The stored lines of a walk in order, as they are: whether they can be trusted is for replay to say. */
  lines(walk: string): Promise<Result<readonly unknown[], StorageProblem>>;
  photo(id: string): Promise<Blob | undefined>;
  draft(walk: string): Promise<StoredDraft | undefined>;
  keepDraft(draft: StoredDraft): Promise<void>;
};

export function walkStore(db: FieldDb): WalkStore {
  return {
    async append(walk, line, photo) {
      try {
        const first = line.event.type === 'opened';
        await db.transaction('rw', [db.lines, db.walks, db.photos, db.drafts, ...(first ? [db.editions] : [])], async () => {
          if (first) await keepNeeded(db, walk.edition);
          const before = await db.walks.get(walk.id);
          // `add`, not `put`: a line that is there already was written by someone else and must not be replaced.
          await db.lines.add(line);
          if (photo) await db.photos.add(photo);
          await db.walks.put(walkSummary(walk, line, before?.opened ?? line.time));
          if (line.event.type === 'read' || line.event.type === 'told' || line.event.type === 'rechecked') await db.drafts.delete(walk.id);
        });
        return success(undefined);
      } catch (error) {
        return failure(storageProblem(error));
      }
    },
    async lines(walk) {
      try {
        return success(await db.lines.where('[walk+seq]').between([walk, -Infinity], [walk, Infinity]).toArray());
      } catch (error) {
        return failure(storageProblem(error));
      }
    },
    async photo(id) {
      return (await db.photos.get(id).catch(() => undefined))?.picture;
    },
    async draft(walk) {
      return db.drafts.get(walk).catch(() => undefined);
    },
    async keepDraft(draft) {
      // A draft is a convenience: what is only typed has never been shown as entered.
      try {
        if (draft.text === '') await db.drafts.delete(draft.walk);
        else await db.drafts.put(draft);
      } catch {
        // Nothing to tell: the pad still holds it.
      }
    },
  };
}
