import { failure, type Result, success } from '../../engine/result.ts';
import type { HubClient } from './hub-client.ts';
import { endsThePass, type HubProblem } from './hub-problem.ts';
import { inTurn } from './in-turn.ts';
import type { SyncStore } from './sync-store.ts';
import type { EditionList, ListedEdition } from './wire/edition-wire.ts';

export type Refreshed = {
  /** The crew's list; absent where it has not changed. */
  readonly list?: EditionList;
  readonly mark?: string;
  readonly fetched: number;
  /** Editions that could not be had, though the hub lists them. */
  readonly missing: readonly { readonly entry: ListedEdition; readonly problem: HubProblem }[];
};

/**
 * Brings the crew's editions onto the device. What is here already is not fetched again; a list is kept only with the editions that it names. One at
 * a time: of two side by side the one with the older list could be the last to keep it, without the editions that the newer one has just brought.
 */
export const refreshList = (client: HubClient, store: SyncStore, mark?: string): Promise<Result<Refreshed, HubProblem>> =>
  inTurn('ohmward-crew-list', () => refreshed(client, store, mark));

async function refreshed(client: HubClient, store: SyncStore, mark?: string): Promise<Result<Refreshed, HubProblem>> {
  const answer = await client.editions(mark);
  if (!answer.ok) return answer;
  const { list } = answer.value;
  if (!list) return success({ fetched: 0, missing: [], ...(mark !== undefined && { mark }) });
  const here = new Set(await store.editionHashes());
  const missing: { entry: ListedEdition; problem: HubProblem }[] = [];
  let fetched = 0;
  for (const entry of list.entries) {
    if (here.has(entry.hash)) continue;
    const edition = await client.edition(entry.hash);
    if (edition.ok) {
      await store.keepEdition(entry, edition.value);
      here.add(entry.hash);
      fetched += 1;
    } else if (endsThePass(edition.problem)) return failure(edition.problem);
    else missing.push({ entry, problem: edition.problem });
  }
  const entries = list.entries.filter(({ hash }) => here.has(hash));
  await store.setList(entries, list.withdrawn);
  // Without a mark the whole list is asked for again, and with it what is missing.
  const next = missing.length === 0 ? answer.value.mark : undefined;
  return success({ list: { ...list, entries }, fetched, missing, ...(next !== undefined && { mark: next }) });
}
