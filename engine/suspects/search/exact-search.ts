import type { SuspectSets } from './suspect-sets.ts';

/** Sets that an exact search opens before it gives up: a second or two on a laptop. A phone asks for fewer. */
export const MOST_SETS = 150_000;

const SAME = 1e-9;

/**
 * The least expected minutes to tell the states of a set apart, exactly: J(S, u) = min over tests of minutes · w(S) + Σ J(part, set-up after),
 * with every set met kept. Tests are tried in the order of what they cost at the least, and the search of a set ends where that is no longer below
 * the best found (branch and bound; the bound is Shannon's, in symbols of the best arity). Minutes here are weighted: divide by the set's weight.
 */
export class ExactSearch {
  private exact: Float64Array = new Float64Array(0);
  private choice: Int32Array = new Int32Array(0);
  private opened = 0;

  constructor(
    readonly sets: SuspectSets,
    readonly most = MOST_SETS,
  ) {}

  /** How many sets were opened. */
  get visited(): number {
    return this.opened;
  }

  /** The search stopped at its limit: what it says of sets is then not known to be the least. */
  get cut(): boolean {
    return this.opened > this.most;
  }

  /** Weighted minutes of the best tree; undefined where the limit was met. */
  minutes(set: number): number | undefined {
    const found = this.solve(set);
    return this.cut ? undefined : found;
  }

  /** The first test of the best tree; -1 where nothing more can be told apart. */
  test(set: number): number {
    return this.minutes(set) === undefined ? -1 : (this.choice[set] ?? -1);
  }

  /** Every test that a best tree can begin with, with its weighted minutes. */
  firstTests(set: number): readonly number[] {
    const best = this.minutes(set);
    if (best === undefined || this.sets.isDone(set)) return [];
    const { problem } = this.sets;
    return problem.outcomes.flatMap((_, test) => {
      const through = this.through(set, test, best + SAME * Math.max(1, best));
      return through !== undefined && !this.cut ? [test] : [];
    });
  }

  /** Weighted minutes of the best tree that begins with a test; undefined where it tells nothing or takes more than `most`. */
  through(set: number, test: number, most = Number.POSITIVE_INFINITY): number | undefined {
    const { sets } = this;
    const { minutes, after, setUps } = sets.problem;
    const at = test * setUps + sets.setUpOf(set);
    const own = minutes[at] ?? Number.POSITIVE_INFINITY;
    if (!Number.isFinite(own)) return undefined;
    const count = sets.split(set, test);
    if (count < 2) return undefined;
    const parts: number[] = [];
    let least = own * sets.weight(set);
    for (let i = 0; i < count; i += 1) {
      if (sets.partDone(i)) continue;
      const part = sets.takePart(i, after[at] ?? 0);
      parts.push(part);
      least += this.known(part) ?? sets.bound(part);
    }
    if (least > most) return undefined;
    for (const part of parts) {
      if (this.known(part) !== undefined) continue;
      least += this.solve(part) - sets.bound(part);
      if (least > most || this.cut) return undefined;
    }
    return least;
  }

  private known(set: number): number | undefined {
    const value = set < this.exact.length ? (this.exact[set] ?? Number.NaN) : Number.NaN;
    return Number.isNaN(value) ? undefined : value;
  }

  private solve(set: number): number {
    const { sets } = this;
    if (sets.isDone(set)) return this.keep(set, 0, -1);
    const known = this.known(set);
    if (known !== undefined) return known;
    this.opened += 1;
    if (this.cut) return 0;
    let best = Number.POSITIVE_INFINITY;
    let choice = -1;
    for (const [least, test] of this.inOrder(set)) {
      if (least >= best - SAME * best) break;
      const through = this.through(set, test, best - SAME * best);
      if (this.cut) return 0;
      if (through !== undefined && through < best) {
        best = through;
        choice = test;
      }
    }
    // What no test splits is an ambiguity group, and costs nothing more.
    return choice < 0 ? this.keep(set, 0, -1) : this.keep(set, best, choice);
  }

  /** The tests that split a set with what each costs at the least, least first. */
  private inOrder(set: number): readonly (readonly [least: number, test: number])[] {
    const { sets } = this;
    const { outcomes, minutes, setUps } = sets.problem;
    const weight = sets.weight(set);
    const from = sets.setUpOf(set);
    const found: (readonly [number, number])[] = [];
    for (let test = 0; test < outcomes.length; test += 1) {
      const own = minutes[test * setUps + from] ?? Number.POSITIVE_INFINITY;
      if (!Number.isFinite(own)) continue;
      const count = sets.split(set, test);
      if (count < 2) continue;
      let least = own * weight;
      for (let i = 0; i < count; i += 1) least += sets.partBound(i);
      found.push([least, test]);
    }
    return found.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  }

  private keep(set: number, minutes: number, test: number): number {
    if (set >= this.exact.length) {
      const size = Math.max(1024, this.sets.size, set * 2);
      const exact = new Float64Array(size).fill(Number.NaN);
      exact.set(this.exact);
      const choice = new Int32Array(size).fill(-1);
      choice.set(this.choice);
      this.exact = exact;
      this.choice = choice;
    }
    this.exact[set] = minutes;
    this.choice[set] = test;
    return minutes;
  }
}
