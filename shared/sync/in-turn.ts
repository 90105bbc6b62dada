/** Milliseconds that another tab is waited for: one that the browser has put to sleep keeps its turn for as long as it sleeps. */
const LONGEST_WAIT = 60_000;

let last: Promise<unknown> = Promise.resolve();

/**
 * Does what is asked for once that which was asked for before has ended, well or not: in this page, and in the app's other tabs where the browser
 * can make them wait for each other.
 */
export function inTurn<T>(name: string, work: () => Promise<T>): Promise<T> {
  const mine = last.then(() => amongTabs(name, work));
  last = mine.catch(() => undefined);
  return mine;
}

async function amongTabs<T>(name: string, work: () => Promise<T>): Promise<T> {
  // Not there on a page over plain http, nor in some browsers.
  const locks = typeof navigator === 'undefined' ? undefined : (navigator.locks as LockManager | undefined);
  if (!locks) return work();
  let begun = false;
  const begin = (): Promise<T> => {
    begun = true;
    return work();
  };
  try {
    return await locks.request(name, { signal: AbortSignal.timeout(LONGEST_WAIT) }, begin);
  } catch (error) {
    // What failed is the work's own failure once it has begun; before, it is the waiting that ended.
    if (begun) throw error;
    return work();
  }
}
