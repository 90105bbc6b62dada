import { pending } from './pending.ts';

/** A walk held by this tab alone. */
export type HeldWalk = {
  release(): void;
  /** Resolves when another tab has taken the walk over; never where it is released. */
  readonly taken: Promise<void>;
};

/** How long a page that is being left may take to let go, ms. */
const LETTING_GO_MS = 200;

/**
 * Holds a walk for this tab, so that two tabs cannot write its log at once. Undefined where another tab holds it and `takeOver` is not
 * asked for. Without Web Locks (a page that is not served securely) everybody is let in: the log's own order still refuses a second line.
 */
export async function holdWalk(locks: LockManager | undefined, walk: string, takeOver = false): Promise<HeldWalk | undefined> {
  if (!locks) return { release: () => undefined, taken: new Promise(() => undefined) };
  const held = await request(locks, walk, takeOver);
  if (held || takeOver) return held;
  await new Promise((resolve) => setTimeout(resolve, LETTING_GO_MS));
  return request(locks, walk, false);
}

function request(locks: LockManager, walk: string, takeOver: boolean): Promise<HeldWalk | undefined> {
  return new Promise((resolve) => {
    const hold = pending<void>();
    const taken = pending<void>();
    const held = locks.request(`ohmward-walk ${walk}`, takeOver ? { steal: true } : { ifAvailable: true }, async (lock) => {
      if (!lock) {
        resolve(undefined);
        return;
      }
      resolve({ release: hold.resolve, taken: taken.promise });
      await hold.promise;
    });
    held.catch(() => taken.resolve());
  });
}
