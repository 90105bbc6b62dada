import { sameData } from '../data/same-data.ts';
import type { HubStanding } from './look-for-hub.ts';

/**
 * How the desk stands after another look. Away, it is who it last was; and what has not changed is the same value, so that nothing that
 * hangs on it begins anew.
 */
export function standingAfter(before: HubStanding, found: HubStanding): HubStanding {
  const standing = found.state === 'away' && 'me' in before && before.me ? { ...found, me: before.me } : found;
  if (sameData(before, standing)) return before;
  if (!('me' in standing && standing.me && 'me' in before && before.me)) return standing;
  const me = sameData(before.me, standing.me)
    ? before.me
    : { ...standing.me, person: sameData(before.me.person, standing.me.person) ? before.me.person : standing.me.person };
  return { ...standing, me };
}
