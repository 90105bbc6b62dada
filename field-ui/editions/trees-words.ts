import type { CrewState } from '../crew/crew-link.ts';
import type { Refreshed } from './refresh-editions.ts';

/** How the list of trees stands, in a line beside it. `count`: the trees that are here, where that is known; `ready`: the app works without a signal. */
export function treesWords(count: number | undefined, { status, sync }: CrewState, refreshed: Refreshed | undefined, ready: boolean): string {
  const looking = status === 'joined' ? sync.code === 'working' : !refreshed;
  if (count === undefined || (count === 0 && looking)) return 'Looking for the crew’s trees…';
  if (status === 'joined') return count === 0 ? '' : ready ? 'The crew’s list, kept on this device' : 'The crew’s list';
  if (!refreshed) return 'Looking for newer ones…';
  return ready && count > 0 ? 'Kept on this device; they work without a signal' : '';
}
