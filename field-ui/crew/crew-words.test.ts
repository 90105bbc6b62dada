import { describe, expect, it } from 'vitest';
import type { SyncState } from '../../shared/sync/crew-sync.ts';
import { hinderedWords, joinProblemWords, leaveProblemWords, sendingWords } from './crew-words.ts';

const signal = { code: 'no-signal' } as const;
const waiting: SyncState = { code: 'waiting', until: 0, problem: signal, left: 3 };
const outside: SyncState = { code: 'outside', problem: { code: 'device-stopped', status: 401, error: '', body: undefined }, left: 3 };
const moment = (iso: string) => iso.slice(11, 16);
const since = '2026-01-15T09:30:00.000+00:00';

describe('the line of what is sent', () => {
  it.each<[SyncState, Parameters<typeof sendingWords>[1], string]>([
    [{ code: 'done', at: 0 }, { entries: 0, photos: 0, drills: 0 }, 'All sent to the crew'],
    // Nothing is left here, whether or not there is a signal at the moment.
    [waiting, { entries: 0, photos: 0, drills: 0 }, 'All sent to the crew'],
    [waiting, { entries: 1, photos: 0, drills: 0, since }, '1 entry waiting since 09:30'],
    [waiting, { entries: 12, photos: 2, drills: 0, since }, '12 entries, 2 photos waiting since 09:30'],
    [waiting, { entries: 0, photos: 1, drills: 0 }, '1 photo waiting'],
    [waiting, { entries: 0, photos: 0, drills: 2 }, '2 drills waiting'],
    // What is counted on the device is told, whatever sync last said.
    [{ code: 'done', at: 0 }, { entries: 2, photos: 0, drills: 0, since }, '2 entries waiting since 09:30'],
    [{ code: 'working', sent: 1, left: 2 }, { entries: 2, photos: 0, drills: 0, since }, 'Sending 2 entries…'],
    [outside, { entries: 3, photos: 0, drills: 0, since }, 'Out of the crew. 3 entries kept here'],
    [outside, { entries: 0, photos: 0, drills: 0 }, 'Out of the crew: join again'],
    [
      { code: 'stuck', problem: { code: 'storage-failed', detail: '' }, left: 1 },
      { entries: 1, photos: 0, drills: 0 },
      'Cannot send: 1 entry kept here',
    ],
  ])('%#', (sync, unsent, words) => expect(sendingWords(sync, unsent, moment)).toBe(words));

  it('claims nothing before it has counted', () => {
    expect(sendingWords({ code: 'done', at: 0 }, undefined, moment)).not.toContain('All sent');
  });
});

it('says why nothing is sent only where something is in the way', () => {
  expect(hinderedWords({ code: 'done', at: 0 })).toBeUndefined();
  expect(hinderedWords(outside)?.happened).toContain('taken out of the crew');
});

it('does not promise that joining or leaving is tried again by itself', () => {
  for (const words of [joinProblemWords(signal), leaveProblemWords(signal)]) expect(Object.values(words).join(' ')).not.toContain('by itself');
});
