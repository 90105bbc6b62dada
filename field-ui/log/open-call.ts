import { failure, type Result, success } from '../../engine/result.ts';
import { beginWalk, takeEvent, type WalkableEdition } from '../../engine/walk/index.ts';
import type { StorageProblem } from '../storage/storage-problem.ts';
import type { WalkStore } from '../storage/walk-store.ts';
import { newId } from '../walk/new-id.ts';
import { stampNow } from '../walk/stamp.ts';

/** Opens a call: the id of its walk, once its first line is on the disk. */
export async function openCall(
  edition: WalkableEdition,
  store: WalkStore,
  { by, site }: { readonly by: string; readonly site: string },
): Promise<Result<string, StorageProblem>> {
  const walk = beginWalk(edition, newId('walk'));
  const opened = { type: 'opened', ...(by.trim() !== '' && { by: by.trim() }), ...(site.trim() !== '' && { site: site.trim() }) };
  const taken = takeEvent(walk, opened, stampNow());
  if (!taken.ok) return failure({ code: 'not-available', detail: taken.problem.code });
  const written = await store.append(taken.value.walk, taken.value.line);
  return written.ok ? success(walk.id) : written;
}
