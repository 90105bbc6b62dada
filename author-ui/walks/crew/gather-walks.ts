import type { Result } from '../../../engine/result.ts';
import type { WalkReview } from '../../../engine/review/index.ts';
import type { Edition } from '../../../engine/walk/index.ts';
import type { WalkSummary } from '../../../shared/sync/wire/walk-wire.ts';
import type { ToReview } from '../review/review-desk.ts';
import { confirmationOf } from '../review/review-key.ts';
import type { WalkFilter } from '../source/walk-filter.ts';
import type { SourceProblem, WalkSource } from '../source/walk-source.ts';

/** How far a gathering is. `left`: walks that could not be taken, by why. */
export type Gathered = {
  readonly found: number;
  readonly reviewed: readonly ReviewedWalk[];
  readonly left: { readonly away: number; readonly unread: number; readonly editionless: number; readonly failed: number };
  readonly done: boolean;
};

export type ReviewedWalk = { readonly review: WalkReview; readonly name: string };

export const NOTHING_GATHERED: Gathered = { found: 0, reviewed: [], left: { away: 0, unread: 0, editionless: 0, failed: 0 }, done: false };

export type GatherFrom = {
  readonly sources: readonly WalkSource[];
  readonly find: (hash: string) => Promise<Edition | undefined>;
  readonly review: (walk: ToReview) => Promise<Result<WalkReview, string>>;
  readonly stopped: () => boolean;
};

/** Reviews every walk that a filter shows, one after the other. Drills are taken only where they were asked for. Tells how far it is after each. */
export async function gatherWalks(filter: WalkFilter, { sources, find, review, stopped }: GatherFrom, tell: (now: Gathered) => void): Promise<void> {
  const wanted = { drill: 'no', ...filter };
  const seen = new Set<string>();
  const todo: { readonly source: WalkSource; readonly summary: WalkSummary }[] = [];
  let now = NOTHING_GATHERED;
  for (const source of sources) {
    let after: string | undefined;
    do {
      if (stopped()) return;
      const page = await source.list(wanted, after);
      if (!page.ok) {
        now = unanswered(now, page.problem);
        break;
      }
      // A walk that is on the hub and opened from a file too is one walk.
      for (const summary of page.value.walks) if (!seen.has(summary.walk)) todo.push({ source, summary });
      for (const { walk } of page.value.walks) seen.add(walk);
      after = page.value.next;
      now = { ...now, found: todo.length };
      tell(now);
    } while (after !== undefined);
  }
  const editions = new Map<string, Promise<Edition | undefined>>();
  for (const { source, summary } of todo) {
    if (stopped()) return;
    const hash = summary.edition;
    const asked = editions.get(hash) ?? find(hash);
    editions.set(hash, asked);
    const edition = await asked;
    const log = edition && (await source.log(summary.walk));
    if (edition && log?.ok) {
      const answer = await review({
        walk: summary.walk,
        edition,
        hash,
        lines: log.value.lines,
        confirmation: confirmationOf(summary.confirmation),
      });
      if (answer.ok) now = { ...now, reviewed: [...now.reviewed, { review: answer.value, name: summary.by ?? summary.personName }] };
      else now = { ...now, left: { ...now.left, failed: now.left.failed + 1 } };
    } else if (log && !log.ok) now = unanswered(now, log.problem);
    else now = { ...now, left: { ...now.left, editionless: now.left.editionless + 1 } };
    tell(now);
  }
  tell({ ...now, done: true });
}

/** An answer that did not come: of the hub, or of this browser's own storage. */
const unanswered = (now: Gathered, { code }: SourceProblem): Gathered => {
  const by = code === 'browser-storage' ? 'unread' : 'away';
  return { ...now, left: { ...now.left, [by]: now.left[by] + 1 } };
};
