import { failure, type Result, success } from '../../engine/result.ts';
import { beginDrill, type DrillTask, drillGround, drillProblemWords } from '../../engine/review/index.ts';
import type { WalkableEdition } from '../../engine/walk/index.ts';
import { storageWords } from '../storage/storage-words.ts';
import { newId } from '../walk/new-id.ts';
import { stampNow } from '../walk/stamp.ts';
import type { DrillStore } from './drill-store.ts';

/** Begins a drill: the id of its run, once it is on the disk; or in words why not. */
export async function startDrill(edition: WalkableEdition, task: DrillTask, store: DrillStore, by: string): Promise<Result<string, string>> {
  const ground = drillGround(edition, task);
  if (!ground.ok) {
    const { message, fix } = drillProblemWords(ground.problem);
    return failure(`${message} ${fix}`);
  }
  const { record } = beginDrill(ground.value, newId('run'), stampNow(), by.trim() === '' ? undefined : by.trim());
  const kept = await store.keep(record, false);
  if (kept.ok) return success(record.id);
  const { happened, todo } = storageWords(kept.problem);
  return failure(`${happened} ${todo}`);
}
