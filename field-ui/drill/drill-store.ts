import { failure, type Result, success } from '../../engine/result.ts';
import type { DrillRecord } from '../../engine/review/index.ts';
import type { FieldDb } from '../storage/field-db.ts';
import { type StorageProblem, storageProblem } from '../storage/storage-problem.ts';

/** The durable side of drills. Every method answers with a problem instead of throwing. */
export type DrillStore = {
  /** Writes a drill as it stands; resolves when it is on the disk. */
  keep(record: DrillRecord, ended: boolean): Promise<Result<void, StorageProblem>>;
  /** A stored drill as it is: whether it can be trusted is for replay to say. */
  record(id: string): Promise<Result<unknown, StorageProblem>>;
};

export function drillStore(db: FieldDb): DrillStore {
  return {
    async keep(record, ended) {
      try {
        await db.transaction('rw', db.drillRuns, async () => {
          const stored = await db.drillRuns.get(record.id);
          // Another tab has gone on with it: what it wrote must not be replaced.
          if (stored && linesIn(stored.run) >= record.lines.length && record.lines.length > 0)
            throw Object.assign(new Error('written'), { name: 'ConstraintError' });
          await db.drillRuns.put({ ...stored, id: record.id, drill: record.task.id, run: record, ended });
        });
        return success(undefined);
      } catch (error) {
        return failure(storageProblem(error));
      }
    },
    async record(id) {
      try {
        return success((await db.drillRuns.get(id))?.run);
      } catch (error) {
        return failure(storageProblem(error));
      }
    },
  };
}

const linesIn = (run: unknown): number =>
  typeof run === 'object' && run !== null && 'lines' in run && Array.isArray(run.lines) ? run.lines.length : -1;
