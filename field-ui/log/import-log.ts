import { failure, type Result, success } from '../../engine/result.ts';
import { type LogProblem, logLines, replayLog, type Walk, walkLineSchema } from '../../engine/walk/index.ts';
import type { EditionStore } from '../storage/edition-store.ts';
import type { FieldDb } from '../storage/field-db.ts';
import { type StorageProblem, storageProblem } from '../storage/storage-problem.ts';
import { keepNeeded } from '../storage/unlisted-editions.ts';
import { walkSummary } from '../storage/walk-summary.ts';

export type ImportProblem =
  | { readonly code: 'no-lines' }
  | { readonly code: 'not-a-log' }
  | { readonly code: 'edition-missing'; readonly edition: string }
  | { readonly code: 'not-trusted'; readonly problem: LogProblem }
  | { readonly code: 'other-here'; readonly line: number }
  | { readonly code: 'not-stored'; readonly problem: StorageProblem };

export type Imported = { readonly walk: string; readonly lines: number; readonly added: number };

/**
 * Takes a log file in. All of it must be a walk that this device's editions give; a walk that is here already is only ever
 * lengthened. Nothing is stored otherwise, so an import can never spoil what is here.
 */
export async function importLog(db: FieldDb, editions: EditionStore, text: string): Promise<Result<Imported, ImportProblem>> {
  const raw = logLines(text);
  if (raw.length === 0) return failure({ code: 'no-lines' });
  const first = walkLineSchema.safeParse(raw[0]);
  if (!first.success) return failure({ code: 'not-a-log' });
  const edition = await editions.walkable(first.data.edition);
  if (!edition) return failure({ code: 'edition-missing', edition: first.data.edition });
  const replay = replayLog(edition, raw);
  const [problem] = replay.problems;
  if (problem) return failure({ code: 'not-trusted', problem });
  try {
    return await store(db, replay.walk, replay.readable);
  } catch (error) {
    return failure({ code: 'not-stored', problem: storageProblem(error) });
  }
}

async function store(db: FieldDb, walk: Walk, lines: Parameters<FieldDb['lines']['bulkAdd']>[0]): Promise<Result<Imported, ImportProblem>> {
  return db.transaction('rw', db.lines, db.walks, db.editions, async () => {
    const here = await db.lines.where('[walk+seq]').between([walk.id, -Infinity], [walk.id, Infinity]).toArray();
    const differs = here.findIndex((line, i) => i < lines.length && line.hash !== lines[i]?.hash);
    if (differs >= 0) return failure({ code: 'other-here' as const, line: differs });
    const added = lines.slice(here.length);
    const last = lines.at(-1);
    if (added.length > 0 && last) {
      await keepNeeded(db, walk.edition);
      await db.lines.bulkAdd(added);
      await db.walks.put(walkSummary(walk, last, lines[0]?.time ?? last.time));
    }
    return success({ walk: walk.id, lines: lines.length, added: added.length });
  });
}
