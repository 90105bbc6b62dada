import { type Result, success } from '../../engine/result.ts';
import { editionHead } from '../../engine/walk/index.ts';
import type { HubClient } from './hub-client.ts';
import { endsThePass, type HubProblem } from './hub-problem.ts';
import type { SyncStore } from './sync-store.ts';
import type { GivenDrill } from './wire/drill-wire.ts';

/** The hub will not have this run, however often it is sent. */
const FOR_GOOD: ReadonlySet<HubProblem['code']> = new Set(['not-there', 'run-differs', 'too-many-entries', 'too-large', 'not-understood']);

/** Sends drills that were done, then brings the ones that wait for this tech, each with its edition: a drill has to begin without a signal. */
export async function syncDrills(client: HubClient, store: SyncStore): Promise<Result<void, HubProblem>> {
  for (const { id, drill, run } of await store.unsentDrillRuns()) {
    const sent = await client.sendDrillRun(drill, id, run);
    if (!sent.ok && !FOR_GOOD.has(sent.problem.code)) return sent;
    await store.drillRunSent(id, sent.ok ? undefined : sent.problem.code);
  }
  const answer = await client.drills();
  // A hub from before it had drills has none, and does all else.
  if (!answer.ok) return answer.problem.code === 'not-there' ? success(undefined) : answer;
  const here = new Set(await store.editionHashes());
  const ready: GivenDrill[] = [];
  for (const drill of answer.value.drills) {
    const fetched = await bringEdition(client, store, drill.task.edition, here);
    if (!fetched.ok) return fetched;
    if (fetched.value) ready.push(drill);
  }
  // A drill never changes; it is given, and stopped.
  const kept = (await store.drills()).filter(({ stopped }) => stopped === undefined);
  if (idsOf(kept) !== idsOf(ready)) await store.keepDrills(ready);
  return success(undefined);
}

const idsOf = (drills: readonly GivenDrill[]): string =>
  drills
    .map(({ task }) => task.id)
    .sort()
    .join(' ');

/** Whether the edition is on the device now. One that cannot be had is asked for again in the next pass, and only its drill waits for it. */
async function bringEdition(client: HubClient, store: SyncStore, hash: string, here: Set<string>): Promise<Result<boolean, HubProblem>> {
  if (here.has(hash)) return success(true);
  const edition = await client.edition(hash);
  if (!edition.ok) {
    return endsThePass(edition.problem) ? edition : success(false);
  }
  await store.keepEdition({ hash, ...editionHead(edition.value), from: 'crew' }, edition.value);
  here.add(hash);
  return success(true);
}
