import { z } from 'zod';
import type { FieldDb } from './field-db.ts';

// No more of a drill is read than what it hangs on: one that cannot be played here may be played by a later version of the app.
const runSchema = z.object({ task: z.object({ edition: z.string() }) });

/** Hashes of the editions without which a call or a drill of this device, given or begun, could not be shown. Asked in the transaction that deletes editions. */
export async function neededEditions({ walks, drillTasks, drillRuns }: Pick<FieldDb, 'walks' | 'drillTasks' | 'drillRuns'>): Promise<Set<string>> {
  const needed = new Set((await walks.toArray()).map(({ edition }) => edition));
  for (const { task } of await drillTasks.toArray()) needed.add(task.edition);
  for (const { run } of await drillRuns.toArray()) {
    const read = runSchema.safeParse(run);
    if (read.success) needed.add(read.data.task.edition);
  }
  return needed;
}
