import type { WalkableEdition } from '../../engine/walk/index.ts';
import { hubClient } from '../../shared/sync/hub-client.ts';
import { refreshList } from '../../shared/sync/refresh-list.ts';
import { crewSyncStore } from '../storage/crew-sync-store.ts';
import type { EditionStore } from '../storage/edition-store.ts';
import type { FieldDb } from '../storage/field-db.ts';
import { refreshEditions } from './refresh-editions.ts';

const HASH = /^[0-9a-f]{64}$/;

type Places = { readonly db: FieldDb; readonly editions: EditionStore };
type Fetch = (path: string, init?: RequestInit) => Promise<Response>;

/** The crew's list where the device has joined, else the one that the service has for anyone. */
async function lookAtList(db: FieldDb, fetchPath: Fetch, signal: AbortSignal | undefined): Promise<void> {
  const membership = await db.crew.get('membership');
  if (membership?.key !== 'membership') await refreshEditions(db, fetchPath, signal);
  else await refreshList(hubClient({ fetch: fetchPath, token: () => membership.token }), crewSyncStore(db, membership.token));
}

/**
 * The edition that an address names: by its hash, or by its tree's name for the one that the crew has published now, as a link from the
 * desk does. What is not on the device is fetched first where there is a signal; undefined where it still is not. `signal` ends the look for it.
 */
export async function editionAtAddress(
  address: string,
  { db, editions }: Places,
  fetchPath: Fetch,
  signal?: AbortSignal,
): Promise<WalkableEdition | undefined> {
  const here = HASH.test(address) ? await editions.walkable(address) : undefined;
  if (here) return here;
  await lookAtList(db, fetchPath, signal).catch(() => undefined);
  if (HASH.test(address)) return editions.walkable(address);
  const named = await db.editions.filter(({ name, listed, from }) => name === address && listed >= 0 && from === undefined).first();
  return named && editions.walkable(named.hash);
}
