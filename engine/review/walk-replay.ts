import { type Suspects, WalkAdvisor } from '../suspects/index.ts';
import { type LogProblem, viewOf, type WalkableEdition, type WalkLine, type WalkView } from '../walk/index.ts';
import { type ReplayedLog, replayedLog } from './replayed-log.ts';
import type { StepStay } from './walk-review.ts';
import { staysOf } from './walk-stays.ts';

/** A walk as it stood after one line of its log. */
export type ReplayFrame = {
  /** Which frame it is, from 0. */
  readonly at: number;
  readonly line: WalkLine;
  /** Minutes from the first line, pauses taken out. */
  readonly minutes: number;
  /** Which stay it belongs to, by its place; undefined before the first step. */
  readonly stay: number | undefined;
};

/** A log to look at line by line: everything as it stood then. What a frame shows is worked out when it is asked for, and kept. */
export class WalkReplay {
  readonly log: ReplayedLog;
  readonly stays: readonly StepStay[];
  readonly frames: readonly ReplayFrame[];
  private readonly views = new Map<number, WalkView>();
  private readonly shown = new Map<number, Suspects>();

  /** `advisor` is shared by the replays of an edition: it keeps the benches that it has solved. */
  constructor(
    readonly edition: WalkableEdition,
    lines: readonly unknown[],
    private readonly advisor: WalkAdvisor = new WalkAdvisor(edition.compiled),
  ) {
    this.log = replayedLog(edition, lines);
    this.stays = staysOf(edition, this.log);
    let minutes = 0;
    let stay = -1;
    this.frames = this.log.lines.map(({ line, worked }, at) => {
      minutes += worked;
      // A stay begins with the line that leads to it, which belongs to the stay before where it also ended it.
      while ((this.stays[stay + 1]?.from ?? Number.POSITIVE_INFINITY) <= line.seq) stay += 1;
      return { at, line, minutes, stay: stay < 0 ? undefined : stay };
    });
  }

  get problems(): readonly LogProblem[] {
    return this.log.problems;
  }

  /** The walk's screen after a frame's line; bands of readings that are on the path are those of the log. Undefined where there is no such frame. */
  view(at: number): WalkView | undefined {
    const replayed = this.log.lines[at];
    if (!replayed) return undefined;
    const view = this.views.get(at) ?? viewOf(replayed.after);
    this.views.set(at, view);
    return view;
  }

  /** What was still possible after a frame's line, and how likely. Slower: a bench is solved for it. */
  suspects(at: number): Suspects | undefined {
    const replayed = this.log.lines[at];
    if (!replayed) return undefined;
    const suspects = this.shown.get(at) ?? this.advisor.suspects(replayed.after, replayed.trail);
    this.shown.set(at, suspects);
    return suspects;
  }
}
