import { setImmediate } from 'node:timers/promises';
import { sql } from 'kysely';
import { type HubStore, type HubTx, inTransaction } from './open-store.ts';

type Job = {
  readonly work: (tx: HubTx) => Promise<unknown>;
  readonly done: (value: unknown) => void;
  readonly failed: (error: unknown) => void;
};

/** Uploads that wait for the disk together at most: enough for a crew at the end of its day, short enough that none waits long. */
const AT_ONCE = 64;

const SAVED = sql.ref('one_job');

/**
 * Uploads that arrive together are put on the disk together: with SQLite the disk is waited for at every commit, and while it is, nothing else
 * is done. Each is whole or not at all by itself, and none is answered before all of its own is on the disk.
 */
class GroupCommit {
  readonly #store: HubStore;
  readonly #waiting: Job[] = [];
  #running = false;

  constructor(store: HubStore) {
    this.#store = store;
  }

  do<T>(work: (tx: HubTx) => Promise<T>): Promise<T> {
    return new Promise<T>((done, failed) => {
      this.#waiting.push({ work, done: done as (value: unknown) => void, failed });
      if (!this.#running) void this.#run();
    });
  }

  async #run(): Promise<void> {
    this.#running = true;
    while (this.#waiting.length > 0) {
      // What has arrived over other connections by now is read before the next group is made up.
      await setImmediate();
      const jobs = this.#waiting.splice(0, AT_ONCE);
      if (jobs.length === 1) await alone(this.#store, jobs[0] as Job);
      else await this.#together(jobs);
    }
    this.#running = false;
  }

  async #together(jobs: readonly Job[]): Promise<void> {
    let ends: readonly (() => void)[];
    try {
      ends = await this.#store.db.transaction().execute(async (tx) => {
        const settled: (() => void)[] = [];
        for (const job of jobs) settled.push(await oneOfMany(tx, job));
        return settled;
      });
    } catch {
      // Nothing of the group was kept. Whatever is wrong with one of them is not the others' trouble.
      for (const job of jobs) await alone(this.#store, job);
      return;
    }
    for (const end of ends) end();
  }
}

/** Does one job of a group; what is given back tells who waits, once the group is on the disk. */
async function oneOfMany(tx: HubTx, { work, done, failed }: Job): Promise<() => void> {
  await sql`savepoint ${SAVED}`.execute(tx);
  try {
    const value = await work(tx);
    await sql`release savepoint ${SAVED}`.execute(tx);
    return () => done(value);
  } catch (error) {
    await sql`rollback to savepoint ${SAVED}`.execute(tx);
    await sql`release savepoint ${SAVED}`.execute(tx);
    return () => failed(error);
  }
}

const alone = (store: HubStore, { work, done, failed }: Job): Promise<void> => inTransaction(store, work).then(done, failed);

const groups = new WeakMap<HubStore, GroupCommit>();

/** As `inTransaction`, together with what else arrives now. PostgreSQL has connections to do it at the same time, and groups commits itself. */
export function inGroup<T>(store: HubStore, work: (tx: HubTx) => Promise<T>): Promise<T> {
  if (store.dialect === 'postgres') return inTransaction(store, work);
  const group = groups.get(store) ?? new GroupCommit(store);
  groups.set(store, group);
  return group.do(work);
}
