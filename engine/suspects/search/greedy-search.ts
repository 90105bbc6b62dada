import type { SuspectSets } from './suspect-sets.ts';

type Choice = { readonly test: number; readonly minutes: number };

const DONE: Choice = { test: -1, minutes: 0 };

/** Picks a test for every set by looking at it alone, and adds up what that costs. Minutes are weighted, as everywhere here. */
export interface Policy {
  minutes(set: number): number;
  test(set: number): number;
}

/** At each set the test with the most bits of information a minute; the first listed of equals. */
export class InformationGain implements Policy {
  private readonly chosen = new Map<number, Choice>();

  constructor(readonly sets: SuspectSets) {}

  minutes(set: number): number {
    return this.choose(set).minutes;
  }

  test(set: number): number {
    return this.choose(set).test;
  }

  private choose(set: number): Choice {
    if (this.sets.isDone(set)) return DONE;
    const known = this.chosen.get(set);
    if (known) return known;
    const choice = this.costed(set, this.best(set));
    this.chosen.set(set, choice);
    return choice;
  }

  private best(set: number): number {
    const { sets } = this;
    const { outcomes, minutes, setUps } = sets.problem;
    let best = -1;
    let most = -1;
    for (let test = 0; test < outcomes.length; test += 1) {
      const own = minutes[test * setUps + sets.setUpOf(set)] ?? Number.POSITIVE_INFINITY;
      if (!Number.isFinite(own)) continue;
      const count = sets.split(set, test);
      if (count < 2) continue;
      let left = 0;
      for (let i = 0; i < count; i += 1) left += sets.partEntropy(i);
      const gain = Math.max(0, sets.entropy(set) - left);
      const rate = own > 0 ? gain / own : gain > 0 ? Number.POSITIVE_INFINITY : 0;
      if (rate > most * (1 + 1e-12)) {
        most = rate;
        best = test;
      }
    }
    return best;
  }

  private costed(set: number, test: number): Choice {
    if (test < 0) return DONE;
    let minutes = minutesOf(this.sets, set, test);
    for (const part of partsOf(this.sets, set, test)) minutes += this.minutes(part);
    return { test, minutes };
  }
}

/** One step looked ahead: at each set the test that is best when the base policy goes on after it. Never worse than its base. */
export class Rollout implements Policy {
  private readonly chosen = new Map<number, Choice>();

  constructor(
    readonly sets: SuspectSets,
    readonly base: Policy,
  ) {}

  minutes(set: number): number {
    return this.choose(set).minutes;
  }

  test(set: number): number {
    return this.choose(set).test;
  }

  /** Weighted minutes when a test comes next and the base policy after it; undefined where it tells nothing or must not be done. */
  through(set: number, test: number): number | undefined {
    const own = minutesOf(this.sets, set, test);
    if (!Number.isFinite(own)) return undefined;
    const parts = partsOf(this.sets, set, test);
    return parts.length < 2 ? undefined : parts.reduce((sum, part) => sum + this.base.minutes(part), own);
  }

  private choose(set: number): Choice {
    if (this.sets.isDone(set)) return DONE;
    const known = this.chosen.get(set);
    if (known) return known;
    let test = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let other = 0; other < this.sets.problem.outcomes.length; other += 1) {
      const through = this.through(set, other);
      if (through === undefined || through >= least * (1 - 1e-12)) continue;
      least = through;
      test = other;
    }
    const minutes = test < 0 ? 0 : partsOf(this.sets, set, test).reduce((sum, part) => sum + this.minutes(part), minutesOf(this.sets, set, test));
    const choice = { test, minutes };
    this.chosen.set(set, choice);
    return choice;
  }
}

function minutesOf(sets: SuspectSets, set: number, test: number): number {
  const { minutes, setUps } = sets.problem;
  return (minutes[test * setUps + sets.setUpOf(set)] ?? Number.POSITIVE_INFINITY) * sets.weight(set);
}

/** The sets that a test leaves; fewer than two where it tells nothing. */
export function partsOf(sets: SuspectSets, set: number, test: number): readonly number[] {
  const count = sets.split(set, test);
  const after = sets.problem.after[test * sets.problem.setUps + sets.setUpOf(set)] ?? 0;
  return count < 2 ? [] : Array.from({ length: count }, (_, i) => sets.takePart(i, after));
}
