import { liveQuery } from 'dexie';
import { failure, type Result, success } from '../../engine/result.ts';
import { CrewSync, type SyncProblem, type SyncState, type SyncWorld } from '../../shared/sync/crew-sync.ts';
import { hubClient } from '../../shared/sync/hub-client.ts';
import { isOutside } from '../../shared/sync/hub-problem.ts';
import type { JoinRequest } from '../../shared/sync/wire/crew-wire.ts';
import { crewSyncStore } from '../storage/crew-sync-store.ts';
import type { FieldDb, StoredCrewList, StoredMembership } from '../storage/field-db.ts';
import { storageProblem } from '../storage/storage-problem.ts';

/** The world outside: the hub, a clock, chance, and whether there may be a signal. */
export type CrewWorld = Pick<SyncWorld, 'now' | 'random' | 'wait' | 'isOnline'> & { readonly fetch: SyncWorld['wire']['fetch'] };

/** `loading` until the device's storage has said whether it is in a crew. Replaced by every change, never changed. */
export type CrewState = {
  readonly status: 'loading' | 'alone' | 'joined';
  readonly membership?: StoredMembership;
  readonly list?: StoredCrewList;
  readonly sync: SyncState;
};

/** This device and the crew's hub: joins, leaves, and runs sync for as long as there is a token. Every tab may have one. */
export class CrewLink {
  readonly #db: FieldDb;
  readonly #world: CrewWorld;
  readonly #listeners = new Set<() => void>();
  #state: CrewState = { status: 'loading', sync: { code: 'off' } };
  #sync: CrewSync | undefined;
  #asked = false;

  constructor(db: FieldDb, world: CrewWorld) {
    this.#db = db;
    this.#world = world;
  }

  readonly state = (): CrewState => this.#state;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  };

  /** Follows what the device has stored, whichever tab wrote it. Answers with how to stop. */
  start(): () => void {
    const following = liveQuery(() => this.#db.crew.toArray()).subscribe({
      next: (rows) => this.#follow(rows),
      // Without storage there is nothing to send, and the start screen says what is wrong.
      error: () => this.#follow([]),
    });
    return () => {
      following.unsubscribe();
      this.#end();
    };
  }

  /** There is something to send, or a signal: try now. */
  readonly nudge = (): void => this.#sync?.nudge();

  /** Whether a hub is there to be joined. */
  hubState() {
    return hubClient({ fetch: this.#world.fetch }).state();
  }

  async join(request: Omit<JoinRequest, 'kind'>): Promise<Result<StoredMembership, SyncProblem>> {
    const before = this.#state.membership;
    const joined = await hubClient({ fetch: this.#world.fetch }).join({ ...request, kind: 'field' });
    if (!joined.ok) return joined;
    const { token, person, device } = joined.value;
    if (token === undefined) return failure({ code: 'answer-not-understood', status: 201 });
    const membership: StoredMembership = { key: 'membership', token, person, device };
    try {
      await this.#db.crew.put(membership);
    } catch (error) {
      // The token is told once; what cannot be kept here must not stay good there.
      await this.#clientOf(token).leave();
      return failure(notStored(error));
    }
    if (before) void this.#clientOf(before.token).leave();
    return success(membership);
  }

  /** Takes the device out of the crew. Needs the hub, so that it forgets the token, unless it has done so already. */
  async leave(): Promise<Result<void, SyncProblem>> {
    const { membership } = this.#state;
    if (!membership) return success(undefined);
    const left = await this.#clientOf(membership.token).leave();
    if (!left.ok && !isOutside(left.problem)) return left;
    try {
      await this.#db.crew.clear();
    } catch (error) {
      return failure(notStored(error));
    }
    return success(undefined);
  }

  #clientOf(token: string) {
    return hubClient({ fetch: this.#world.fetch, token: () => token });
  }

  #follow(rows: readonly (StoredMembership | StoredCrewList)[]): void {
    const membership = rows.find((row) => row.key === 'membership');
    const list = rows.find((row) => row.key === 'list');
    if (membership?.token !== this.#state.membership?.token) {
      this.#end();
      if (membership) this.#begin(membership.token);
    }
    const sync: SyncState = this.#sync?.state ?? { code: 'off' };
    if (membership) this.#show({ status: 'joined', membership, ...(list && { list }), sync });
    else this.#show({ status: 'alone', sync });
  }

  /** A sync of its own for each token: what another hub was told does not count for this one. */
  #begin(token: string): void {
    const { fetch, ...clock } = this.#world;
    const sync = new CrewSync({ ...clock, wire: { fetch, token: () => token }, store: crewSyncStore(this.#db, token) });
    this.#sync = sync;
    this.#asked = false;
    sync.subscribe(() => {
      if (this.#sync !== sync) return;
      this.#show({ ...this.#state, sync: sync.state });
      if (sync.state.code === 'done' && !this.#asked) void this.#askWhoIAm(token);
    });
    sync.start();
  }

  #end(): void {
    const sync = this.#sync;
    this.#sync = undefined;
    sync?.stop();
  }

  /** The owner may have changed the name or the role since. */
  async #askWhoIAm(token: string): Promise<void> {
    this.#asked = true;
    const me = await this.#clientOf(token).me();
    if (!me.ok) return;
    await this.#db
      .transaction('rw', this.#db.crew, async () => {
        const stored = await this.#db.crew.get('membership');
        if (stored?.key === 'membership' && stored.token === token) await this.#db.crew.put({ ...stored, ...me.value });
      })
      .catch(() => undefined);
  }

  #show(state: CrewState): void {
    this.#state = state;
    for (const listener of this.#listeners) listener();
  }
}

function notStored(error: unknown): SyncProblem {
  const problem = storageProblem(error);
  return { code: 'storage-failed', detail: 'detail' in problem ? problem.detail : problem.code };
}
