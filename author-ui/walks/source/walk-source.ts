import { failure, type Result, success } from '../../../engine/result.ts';
import type { HubClient } from '../../../shared/sync/hub-client.ts';
import type { HubProblem } from '../../../shared/sync/hub-problem.ts';
import type { ConfirmationEntry, ConfirmedFaults, ConfirmRequest } from '../../../shared/sync/wire/review-wire.ts';
import type { WalkSummary } from '../../../shared/sync/wire/walk-wire.ts';
import { stored } from './stored.ts';
import { hubQuery, isAskedFor, type WalkFilter } from './walk-filter.ts';
import type { KeptConfirmation, WalksDb } from './walks-db.ts';

export type SourceProblem =
  | HubProblem
  | { readonly code: 'not-kept' }
  /** This browser's storage could not be read or written. `detail`: as the browser has it. */
  | { readonly code: 'browser-storage'; readonly detail: string };
type Answer<T> = Promise<Result<T, SourceProblem>>;

export type ListedWalks = { readonly walks: readonly WalkSummary[]; readonly next?: string | undefined };

/** A walk's log with what is known of it; `aside` are lines that contradict it or come after a gap. */
export type WalkLog = { readonly summary: WalkSummary; readonly lines: readonly unknown[]; readonly aside: readonly unknown[] };

/** What was said of a finding and when; who said it has a name only where it was asked for. */
export type Said = Omit<ConfirmationEntry, 'person'>;

/** Walks, wherever they are: on the crew's hub, or opened from files and kept in this browser. */
export type WalkSource = {
  readonly place: 'hub' | 'here';
  /** A page of walks, the call opened last first; `after` is `next` of the page before. */
  readonly list: (filter: WalkFilter, after?: string) => Answer<ListedWalks>;
  readonly log: (walk: string) => Answer<WalkLog>;
  /** The newest first. */
  readonly said: (walk: string) => Answer<readonly Said[]>;
  readonly say: (walk: string, request: ConfirmRequest) => Answer<Said>;
  /** How often each fault of each bench was confirmed, on calls of any tree, drills left out. */
  readonly confirmedFaults: () => Answer<ConfirmedFaults['faults']>;
  /** Undefined where photos do not come with walks. */
  readonly photo?: (walk: string, id: string) => Answer<Blob>;
};

export const PAGE = 50;

export function hubSource(client: HubClient): WalkSource {
  return {
    place: 'hub',
    list: (filter, after) => client.walks({ ...hubQuery(filter), most: PAGE, ...(after !== undefined && { after }) }),
    async log(walk) {
      const first = await client.walkLines(walk);
      if (!first.ok) return first;
      const lines = [...first.value.lines];
      for (let { next } = first.value; next !== undefined; ) {
        const page = await client.walkLines(walk, next);
        if (!page.ok) return page;
        lines.push(...page.value.lines);
        next = page.value.next;
      }
      return success({ summary: first.value.summary, lines, aside: first.value.aside });
    },
    async said(walk) {
      const answered = await client.confirmations(walk);
      return answered.ok ? success(answered.value.confirmations) : answered;
    },
    say: (walk, request) => client.confirm(walk, request),
    async confirmedFaults() {
      const answered = await client.confirmedFaults();
      return answered.ok ? success(answered.value.faults) : answered;
    },
    photo: (walk, id) => client.photo(walk, id),
  };
}

/** Walks that are kept in this browser. No question of it throws. */
export function localSource(db: WalksDb, now: () => string): WalkSource {
  const { list, log, said, say, confirmedFaults } = keptWalks(db, now);
  return {
    place: 'here',
    list: (filter, after) => stored(() => list(filter, after)),
    log: (walk) => stored(() => log(walk)),
    said: (walk) => stored(() => said(walk)),
    say: (walk, request) => stored(() => say(walk, request)),
    confirmedFaults: () => stored(() => confirmedFaults()),
  };
}

function keptWalks(db: WalksDb, now: () => string): Omit<WalkSource, 'place' | 'photo'> {
  return {
    async list(filter, after) {
      const all = (await db.walks.toArray()).map(({ summary }) => summary).filter((summary) => isAskedFor(summary, filter));
      const ordered = all.sort((a, b) => ((a.opened ?? '') < (b.opened ?? '') ? 1 : -1));
      const from = after === undefined ? 0 : Number(after);
      const next = from + PAGE;
      return success({ walks: ordered.slice(from, next), ...(next < ordered.length && { next: String(next) }) });
    },
    async log(walk) {
      const kept = await db.walks.get(walk);
      return kept ? success({ summary: kept.summary, lines: kept.lines, aside: kept.aside }) : failure({ code: 'not-kept' });
    },
    async said(walk) {
      const all = await db.confirmations.where('walk').equals(walk).toArray();
      return success(all.sort((a, b) => (b.number ?? 0) - (a.number ?? 0)));
    },
    async say(walk, { held, bench, fault, note }) {
      const known = held !== undefined && bench !== undefined && fault !== undefined;
      const entry: KeptConfirmation = {
        walk,
        at: now(),
        personName: '',
        ...(held !== undefined && { held }),
        ...(known && { bench, fault }),
        ...(note !== undefined && note !== '' && { note }),
      };
      await db.transaction('rw', db.walks, db.confirmations, async () => {
        await db.confirmations.add(entry);
        await db.walks
          .where('id')
          .equals(walk)
          .modify((kept) => {
            const { confirmation: _before, ...summary } = kept.summary;
            const confirmation = held === undefined ? undefined : { held, ...(known && { bench, fault }) };
            Object.assign(kept, { summary: { ...summary, ...(confirmation && { confirmation }) } });
          });
      });
      return success(entry);
    },
    async confirmedFaults() {
      const times = new Map<string, ConfirmedFaults['faults'][number]>();
      await db.walks.each(({ summary: { drill, confirmation: { bench, fault } = {} } }) => {
        if (drill || bench === undefined || fault === undefined) return;
        const key = `${bench} ${fault}`;
        times.set(key, { bench, fault, times: (times.get(key)?.times ?? 0) + 1 });
      });
      return success([...times.values()]);
    },
  };
}

/** Takes a walk out of this browser, with what was said and worked out of it. The file that it came from is not touched. */
export const removeKept = (db: WalksDb, walk: string): Answer<undefined> =>
  stored(async () => {
    await db.transaction('rw', db.walks, db.confirmations, db.reviews, async () => {
      await db.walks.delete(walk);
      await db.confirmations.where('walk').equals(walk).delete();
      await db.reviews.where('walk').equals(walk).delete();
    });
    return success(undefined);
  });
