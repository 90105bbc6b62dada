import type { SyncProblem, SyncState } from '../../shared/sync/crew-sync.ts';
import { type HubWords, hubProblemWords, roleWords } from '../../shared/sync/hub-words.ts';
import type { WalkNote } from '../../shared/sync/sync-store.ts';
import { counted } from '../../shared/ui/words/plain-words.ts';
import type { StoredMembership } from '../storage/field-db.ts';
import type { Unsent } from './unsent.ts';

export const memberWords = ({ person }: StoredMembership): string => `${person.name}, ${roleWords(person.role).toLowerCase()}`;

const unsentWords = ({ entries, photos, drills }: Unsent): string =>
  [entries > 0 ? counted(entries, 'entry', 'entries') : '', photos > 0 ? counted(photos, 'photo') : '', drills > 0 ? counted(drills, 'drill') : '']
    .filter((part) => part !== '')
    .join(', ');

/** One short line: whether the hub has everything that is on this device. `moment` words a time. */
export function sendingWords(sync: SyncState, unsent: Unsent | undefined, moment: (iso: string) => string): string {
  if (!unsent) return 'Counting what is to be sent…';
  const what = unsentWords(unsent);
  if (sync.code === 'outside') return what === '' ? 'Out of the crew: join again' : `Out of the crew. ${what} kept here`;
  if (what === '') return 'All sent to the crew';
  if (sync.code === 'stuck') return `Cannot send: ${what} kept here`;
  if (sync.code === 'working') return `Sending ${what}…`;
  return `${what} waiting${unsent.since === undefined ? '' : ` since ${moment(unsent.since)}`}`;
}

/** Why nothing is sent at the moment; undefined where there is nothing in the way. */
export const hinderedWords = (sync: SyncState): HubWords | undefined => ('problem' in sync ? hubProblemWords(sync.problem) : undefined);

export function leaveProblemWords(problem: SyncProblem): HubWords {
  const words = hubProblemWords(problem);
  if (problem.code !== 'no-signal' && problem.code !== 'too-slow') return words;
  return {
    happened: 'The hub could not be told.',
    safe: 'This device is still in the crew.',
    todo: 'Leave when there is a signal, so that the hub forgets this device.',
  };
}

export function joinProblemWords(problem: SyncProblem): HubWords {
  if (problem.code === 'no-signal' || problem.code === 'too-slow')
    return {
      happened: 'The hub could not be reached, so this device has not joined.',
      safe: 'Everything entered is safe on this device.',
      todo: 'Join when there is a signal. Until then everything works without a crew.',
    };
  if (problem.code === 'storage-failed')
    return {
      happened: `The browser could not keep the membership on this device (${problem.detail}).`,
      safe: 'The code has been used up. Calls and trees are as they were.',
      todo: 'Free some space, then ask for a new invitation. In a private window nothing can be kept.',
    };
  return hubProblemWords(problem);
}

export function walkNoteWords(note: WalkNote): string {
  if (note.code === 'forked') return 'This call was carried on in two places. The hub keeps both; a senior tech can compare them.';
  return `Entry ${note.seq + 1} was not taken by the hub (${note.fault}). It stays on this device; save the log as a file and show it to a senior tech.`;
}
