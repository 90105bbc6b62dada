import { type Trail, trailAfter } from '../suspects/index.ts';
import { type LogProblem, minutesBetween, replayLog, type Walk, type WalkableEdition, type WalkLine } from '../walk/index.ts';

/** One line of a log, with the walk before and after it. */
export type ReplayedLine = {
  readonly line: WalkLine;
  readonly before: Walk;
  readonly after: Walk;
  /** How the circuit stood at each entry of the path before and after it. */
  readonly trailBefore: Trail;
  readonly trail: Trail;
  /** Minutes since the line before; 0 for the first. */
  readonly since: number;
  /** `since`, or 0 while the walk was paused. */
  readonly worked: number;
};

/** A log as far as it can be trusted, line by line. */
export type ReplayedLog = { readonly end: Walk; readonly lines: readonly ReplayedLine[]; readonly problems: readonly LogProblem[] };

/** Replays a log and keeps what a review looks at. */
export function replayedLog(edition: WalkableEdition, lines: readonly unknown[]): ReplayedLog {
  const seen: ReplayedLine[] = [];
  let trail: Trail = [];
  const { walk, problems } = replayLog(edition, lines, (line, before, after) => {
    const trailBefore = trail;
    trail = trailAfter(trail, before.snapshot.context, after.snapshot.context);
    const last = seen.at(-1)?.line;
    const since = last ? minutesBetween(last, line) : 0;
    const worked = before.snapshot.context.paused ? 0 : since;
    seen.push({ line, before, after, trailBefore, trail, since, worked });
  });
  return { end: walk, lines: seen, problems };
}
