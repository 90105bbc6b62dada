import type { Limits, SuspectSets } from './suspect-sets.ts';

/** Sets that an exact search opens before it gives up: a second or two on a laptop. A phone asks for fewer. */
export const MOST_SETS = 150_000;

const SAME = 1e-9;

/**
 * The least expected minutes to tell the states of a set apart, exactly: J(S, u) = min over tests of minutes · w(S) + Σ J(part, set-up after),
 * with every set met kept. Tests are tried in the order of what they cost at the least, and the search of a set ends where that is no longer below
 * the best found (branch and bound; see `Limits`). Minutes here are weighted: divide by the set's weight.
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
    const limits = this.sets.limits(set);
    return limits.splits.filter((test) => this.through(set, test, limits, best + SAME * Math.max(1, best)) !== undefined && !this.cut);
  }

  /** Weighted minutes of the best tree that begins with a test; undefined where it tells nothing or the search was cut. */
  after(set: number, test: number): number | undefined {
    return this.through(set, test, this.sets.limits(set), Number.POSITIVE_INFINITY);
  }

  /** As `after`; undefined too where it takes more than `most`. */
  private through(set: number, test: number, limits: Limits, most: number): number | undefined {
    const { sets } = this;
    const { minutes, after, setUps } = sets.problem;
    const at = test * setUps + sets.setUpOf(set);
    const count = sets.split(set, test);
    if (count < 2) return undefined;
    const parts: number[] = [];
    const bounds: number[] = [];
    let least = (minutes[at] ?? Number.POSITIVE_INFINITY) * sets.weight(set);
    for (let i = 0; i < count; i += 1) {
      if (sets.partDone(i)) continue;
      const bound = sets.partBound(i, limits);
      const part = sets.takePart(i, after[at] ?? 0);
      const known = this.known(part);
      least += known ?? bound;
      if (known !== undefined) continue;
      parts.push(part);
      bounds.push(bound);
    }
    if (least > most) return undefined;
    for (const [i, part] of parts.entries()) {
      least += this.solve(part) - (bounds[i] ?? 0);
      if (least > most || this.cut) return undefined;
    }
    return Number.isFinite(least) ? least : undefined;
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
    const limits = sets.limits(set);
    for (const [least, test] of this.inOrder(set, limits)) {
      if (least >= best - SAME * best) break;
      const through = this.through(set, test, limits, best - SAME * best);
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
  private inOrder(set: number, limits: Limits): readonly (readonly [least: number, test: number])[] {
    const { sets } = this;
    const { minutes, setUps } = sets.problem;
    const weight = sets.weight(set);
    const from = sets.setUpOf(set);
    return limits.splits
      .map((test): readonly [number, number] => {
        const count = sets.split(set, test);
        let least = (minutes[test * setUps + from] ?? 0) * weight;
        for (let i = 0; i < count; i += 1) least += sets.partBound(i, limits);
        return [least, test];
      })
      .sort((a, b) => a[0] - b[0] || a[1] - b[1]);
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
