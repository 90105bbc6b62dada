import type { HubWire } from './ask-hub.ts';
import { eitherSignal } from './either-signal.ts';
import { type HubClient, hubClient } from './hub-client.ts';
import { type HubProblem, isOutside, passesByItself } from './hub-problem.ts';
import { refreshList } from './refresh-list.ts';
import { retryDelay } from './retry-delay.ts';
import { sendPhotos } from './send-photos.ts';
import { syncDrills } from './sync-drills.ts';
import type { SyncStore } from './sync-store.ts';
import { type UploadMemory, uploadMemory, WalkUpload } from './upload-walks.ts';
import type { EditionList } from './wire/edition-wire.ts';

export type SyncProblem = HubProblem | { readonly code: 'storage-failed'; readonly detail: string };

/** Where sync stands. Times are milliseconds of the clock given. */
export type SyncState =
  /** Not started, or stopped by the app. */
  | { readonly code: 'off' }
  | { readonly code: 'working'; readonly sent: number; readonly left: number }
  /** The hub has everything that is on the device. */
  | { readonly code: 'done'; readonly at: number }
  /** It will try again by itself. */
  | { readonly code: 'waiting'; readonly until: number; readonly problem: SyncProblem; readonly left: number }
  /** The device is not, or no longer, in the crew; joining starts it again. Nothing here is touched. */
  | { readonly code: 'outside'; readonly problem: SyncProblem; readonly left: number }
  /** Trying again alone will not help: someone has to do something. It is tried again when the app asks for it. */
  | { readonly code: 'stuck'; readonly problem: SyncProblem; readonly left: number };

/** The world outside, as sync needs it. */
export type SyncWorld = {
  readonly wire: HubWire;
  readonly store: SyncStore;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** In [0, 1). */
  readonly random: () => number;
  /** Resolves after some milliseconds, or as soon as the signal aborts. Never rejects. */
  readonly wait: (ms: number, signal: AbortSignal) => Promise<void>;
  /** Whether there may be a signal; true where the device cannot tell. */
  readonly isOnline: () => boolean;
  readonly onListed?: (list: EditionList) => void;
};

const BETWEEN = 60_000;
const COMPARE_EVERY = 60 * 60_000;

/**
 * Keeps a device and the hub together: lines, photos and done drills up, editions and drills down. Start it once; `nudge` it after each line, when the signal comes
 * back and after joining. One pass runs at a time. Several tabs may each run one: every question can be repeated.
 */
export class CrewSync {
  readonly #world: SyncWorld;
  readonly client: HubClient;
  readonly #memory: UploadMemory = uploadMemory();
  readonly #listeners = new Set<() => void>();
  #state: SyncState = { code: 'off' };
  #mark: string | undefined;
  #compared = Number.NEGATIVE_INFINITY;
  #tries = 0;
  #run: AbortController | undefined;
  #sleep: AbortController | undefined;
  #nudged = false;

  constructor(world: SyncWorld) {
    this.#world = world;
    this.client = hubClient(world.wire);
  }

  get state(): SyncState {
    return this.#state;
  }

  /** For `useSyncExternalStore`: called with every new state; gives back how to stop listening. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  };

  start(): void {
    if (this.#run) return;
    const run = new AbortController();
    this.#run = run;
    void this.#loop(run.signal);
  }

  stop(): void {
    this.#run?.abort();
    this.#run = undefined;
    this.#sleep?.abort();
    this.#become({ code: 'off' });
  }

  /** There is something to send, a signal, or a new token: try now. */
  nudge(): void {
    this.#nudged = true;
    this.#tries = 0;
    this.#sleep?.abort();
  }

  async #loop(signal: AbortSignal): Promise<void> {
    while (!signal.aborted) {
      this.#nudged = false;
      const next = await this.pass(signal);
      if (signal.aborted) return;
      if (this.#nudged) continue;
      const sleep = new AbortController();
      this.#sleep = sleep;
      await this.#world.wait(next, eitherSignal(sleep.signal, signal));
    }
  }

  /** One pass. Resolves to the milliseconds until the next is due. */
  async pass(signal?: AbortSignal): Promise<number> {
    if (!this.#world.isOnline()) return this.#failed({ code: 'no-signal' }, signal);
    // Who is out of the crew stays so until the hub says otherwise: it is not sending.
    if (this.#state.code !== 'outside') this.#become({ code: 'working', sent: 0, left: await this.#left() });
    let problem: SyncProblem | undefined;
    try {
      problem = await this.#everything(signal);
    } catch (error) {
      problem = { code: 'storage-failed', detail: error instanceof Error ? `${error.name}: ${error.message}`.slice(0, 200) : '' };
    }
    if (problem) return this.#failed(problem, signal);
    this.#tries = 0;
    if (!signal?.aborted) this.#become({ code: 'done', at: this.#world.now() });
    return BETWEEN;
  }

  /** Walks first: what only this device has is what could be lost. */
  async #everything(signal: AbortSignal | undefined): Promise<HubProblem | undefined> {
    const { store, now } = this.#world;
    const upload = new WalkUpload(this.client, store, this.#memory, {
      ...(signal && { signal }),
      progress: (sent, left) => this.#become({ code: 'working', sent, left }),
    });
    if (now() - this.#compared >= COMPARE_EVERY) {
      const compared = await upload.compare();
      if (!compared.ok) return compared.problem;
      this.#compared = now();
    }
    const lines = await upload.run();
    if (!lines.ok) return lines.problem;
    const photos = await sendPhotos(this.client, store, () => signal?.aborted === true);
    if (!photos.ok) return photos.problem;
    const refreshed = await refreshList(this.client, store, this.#mark);
    if (!refreshed.ok) return refreshed.problem;
    this.#mark = refreshed.value.mark;
    if (refreshed.value.list) this.#world.onListed?.(refreshed.value.list);
    const drills = await syncDrills(this.client, store);
    return drills.ok ? undefined : drills.problem;
  }

  async #failed(problem: SyncProblem, signal: AbortSignal | undefined): Promise<number> {
    this.#tries += 1;
    const passing = problem.code !== 'storage-failed' && passesByItself(problem);
    const delay = passing ? retryDelay(this.#tries, this.#world.random(), 'after' in problem ? problem.after : 0) : 15 * 60_000;
    if (signal?.aborted) return delay;
    const left = await this.#left();
    if (passing) this.#become({ code: 'waiting', until: this.#world.now() + delay, problem, left });
    else this.#become({ code: problem.code !== 'storage-failed' && isOutside(problem) ? 'outside' : 'stuck', problem, left });
    return delay;
  }

  async #left(): Promise<number> {
    try {
      return (await this.#world.store.unsent()).reduce((sum, { length, sent }) => sum + length - sent, 0);
    } catch {
      return 0;
    }
  }

  #become(state: SyncState): void {
    this.#state = state;
    for (const listener of this.#listeners) listener();
  }
}
