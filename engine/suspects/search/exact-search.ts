import { InformationGain, type Policy, Rollout } from './greedy-search.ts';
import { type Limits, SetBounds } from './set-bounds.ts';
import type { SuspectSets } from './suspect-sets.ts';

/** Sets that an exact search opens before it gives up: some seconds on a laptop. A phone asks for fewer. */
export const MOST_SETS = 150_000;

const TOLD_EVERY = 1_000;

const SAME = 1e-9;

export type ExactSearchOptions = {
  /** Hears now and then how many sets were opened. */
  readonly progress?: ((opened: number) => void) | undefined;
  /** What is to be beaten; one that knows these sets already saves its work. */
  readonly rollout?: Policy;
};

/**
 * The least expected minutes to tell the states of a set apart, exactly: J(S, u) = min over tests of minutes · w(S) + Σ J(part, set-up after), with
 * what is known of every set met kept. Branch and bound: it begins with the rollout's minutes as those to beat; each set is searched only as far as it could
 * still matter, and what is then known is that it takes no less. Tests are tried in the order of what they cost at the least (see `Limits`). Minutes here are
 * weighted: divide by the set's weight.
 */
export class ExactSearch {
  // The minutes of a set where `settled`, else the least that they can be.
  private value: Float64Array = new Float64Array(0);
  private settled: Uint8Array = new Uint8Array(0);
  private choice: Int32Array = new Int32Array(0);
  private opened = 0;
  private readonly bounds: SetBounds;
  private readonly rollout: Policy;
  private readonly progress: ((opened: number) => void) | undefined;

  constructor(
    readonly sets: SuspectSets,
    readonly most = MOST_SETS,
    { progress, rollout = new Rollout(sets, new InformationGain(sets)) }: ExactSearchOptions = {},
  ) {
    this.progress = progress;
    this.rollout = rollout;
    this.bounds = new SetBounds(sets);
  }

  /** How many times a set was opened. */
  get visited(): number {
    return this.opened;
  }

  /** The search stopped at its limit: what it says of sets is then not known to be the least. */
  get cut(): boolean {
    return this.opened > this.most;
  }

  /** Weighted minutes of the best tree; undefined where the limit was met. */
  minutes(set: number): number | undefined {
    if (this.isSettled(set)) return this.value[set];
    const beat = this.rollout.minutes(set);
    const found = this.solve(set, beat * (1 + SAME) + SAME);
    return this.cut ? undefined : found;
  }

  /** The first test of the best tree; -1 where nothing more can be told apart. */
  test(set: number): number {
    return this.minutes(set) === undefined ? -1 : (this.choice[set] ?? -1);
  }

  /** Every test that a best tree can begin with. */
  firstTests(set: number): readonly number[] {
    const best = this.minutes(set);
    if (best === undefined || this.sets.isDone(set)) return [];
    const most = best + 2 * SAME * Math.max(1, best);
    const limits = this.bounds.limits(set, true);
    return limits.splits.filter((test) => this.through(set, test, limits, most) < most && !this.cut);
  }

  /** Weighted minutes of the best tree that begins with a test; undefined where it tells nothing or the search was cut. */
  after(set: number, test: number): number | undefined {
    const limits = this.bounds.limits(set, true);
    if (!limits.splits.includes(test)) return undefined;
    const minutes = this.through(set, test, limits, Number.POSITIVE_INFINITY);
    return this.cut ? undefined : minutes;
  }

  /** The minutes of a tree that begins with a test where they are below `most`; else some number that they are not below, and not below `most`. */
  private through(set: number, test: number, limits: Limits, most: number): number {
    const { sets, bounds } = this;
    const { minutes, after, setUps } = sets.problem;
    const at = test * setUps + sets.setUpOf(set);
    const count = sets.split(set, test);
    const parts: number[] = [];
    const leasts: number[] = [];
    let least = (minutes[at] ?? Number.POSITIVE_INFINITY) * sets.weight(set);
    for (let i = 0; i < count; i += 1) {
      if (sets.partDone(i)) continue;
      const bound = bounds.ofPart(i, limits);
      const part = sets.takePart(i, after[at] ?? 0);
      const known = Math.max(this.isSettled(part) ? 0 : bound, this.floor(part));
      least += known;
      if (this.isSettled(part)) continue;
      parts.push(part);
      leasts.push(known);
    }
    for (const [i, part] of parts.entries()) {
      if (least >= most || this.cut) return least;
      const bound = leasts[i] ?? 0;
      least += Math.max(bound, this.solve(part, most - least + bound)) - bound;
    }
    return least;
  }

  private isSettled(set: number): boolean {
    return this.settled[set] === 1;
  }

  private floor(set: number): number {
    return this.value[set] ?? 0;
  }

  /** The minutes of a set where they are below `most`; else some number that they are not below. */
  private solve(set: number, most: number): number {
    const { sets } = this;
    if (this.isSettled(set)) return this.floor(set);
    if (sets.isDone(set)) return this.keep(set, 0, -1, true);
    const before = this.floor(set);
    if (before >= most) return before;
    this.opened += 1;
    if (this.opened % TOLD_EVERY === 0) this.progress?.(this.opened);
    if (this.cut) return before;
    let best = most;
    let choice = -1;
    let others = Number.POSITIVE_INFINITY;
    const limits = this.bounds.limits(set);
    for (const [least, test] of this.inOrder(set, limits)) {
      if (least >= best * (1 - SAME)) {
        others = Math.min(others, least);
        break;
      }
      const through = this.through(set, test, limits, best);
      if (this.cut) return before;
      if (through < best * (1 - SAME)) {
        best = through;
        choice = test;
      } else others = Math.min(others, through);
    }
    if (choice >= 0) return this.keep(set, best, choice, true);
    // What no test splits is an ambiguity group, and costs nothing more.
    return limits.splits.length === 0 ? this.keep(set, 0, -1, true) : this.keep(set, Math.max(before, others), -1, false);
  }

  /** The tests worth taking on a set with what each costs at the least, least first. */
  private inOrder(set: number, limits: Limits): readonly (readonly [least: number, test: number])[] {
    const { sets, bounds } = this;
    const { minutes, after, setUps } = sets.problem;
    const weight = sets.weight(set);
    const from = sets.setUpOf(set);
    return limits.splits
      .map((test): readonly [number, number] => {
        const at = test * setUps + from;
        const count = sets.split(set, test);
        let least = (minutes[at] ?? 0) * weight;
        for (let i = 0; i < count; i += 1) {
          const known = sets.knownPart(i, after[at] ?? 0);
          if (known >= 0 && this.isSettled(known)) least += this.floor(known);
          else least += Math.max(bounds.ofPart(i, limits), known < 0 ? 0 : this.floor(known));
        }
        return [least, test];
      })
      .sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  }

  private keep(set: number, minutes: number, test: number, settled: boolean): number {
    if (set >= this.value.length) {
      const size = Math.max(1024, this.sets.size, set * 2);
      const value = new Float64Array(size);
      value.set(this.value);
      const done = new Uint8Array(size);
      done.set(this.settled);
      const choice = new Int32Array(size).fill(-1);
      choice.set(this.choice);
      this.value = value;
      this.settled = done;
      this.choice = choice;
    }
    this.value[set] = minutes;
    this.settled[set] = settled ? 1 : 0;
    this.choice[set] = test;
    return minutes;
  }
}
