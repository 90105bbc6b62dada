import { partsOf } from './greedy-search.ts';
import type { SuspectSets } from './suspect-sets.ts';
import type { TestProblem } from './test-problem.ts';

/** What to do with a set of states: a test and what follows each of its outcomes, or nothing more. Equal sets are one and the same plan. */
export type TestPlan = {
  readonly states: readonly number[];
  readonly setUp: number;
  /** Absent at a leaf: one group, or several that no test tells apart. */
  readonly test?: number;
  readonly ways: readonly { readonly outcome: number; readonly plan: TestPlan }[];
};

/** Writes out the plan that a search or policy chose for a set. */
export function planOf(sets: SuspectSets, chooser: { test(set: number): number }, set: number): TestPlan {
  const made = new Map<number, TestPlan>();
  const make = (at: number): TestPlan => {
    const known = made.get(at);
    if (known) return known;
    const test = sets.isDone(at) ? -1 : chooser.test(at);
    const states = sets.list(at);
    const setUp = sets.setUpOf(at);
    if (test < 0) {
      const leaf: TestPlan = { states, setUp, ways: [] };
      made.set(at, leaf);
      return leaf;
    }
    const row = sets.problem.outcomes[test];
    const ways = partsOf(sets, at, test).map((part) => {
      const [first = 0] = sets.list(part);
      return { outcome: row?.[first] ?? 0, plan: make(part) };
    });
    const plan: TestPlan = { states, setUp, test, ways };
    made.set(at, plan);
    return plan;
  };
  return make(set);
}

/** Expected minutes of a plan on a problem (its own, or one with other minutes), from a set-up. */
export function planMinutes(problem: TestProblem, plan: TestPlan, setUp = plan.setUp): number {
  let whole = 0;
  let spent = 0;
  for (const state of plan.states) {
    const weight = problem.weights[state] ?? 0;
    whole += weight;
    spent += weight * stateMinutes(problem, plan, state, setUp);
  }
  return whole > 0 ? spent / whole : 0;
}

/** Minutes that a plan takes where one state is what is so: the tests on the way to it, with their set-up. */
export function stateMinutes({ minutes, after, setUps, outcomes }: TestProblem, plan: TestPlan, state: number, setUp = plan.setUp): number {
  let spent = 0;
  let at: TestPlan | undefined = plan;
  for (let now = setUp; at?.test !== undefined; ) {
    const cell: number = at.test * setUps + now;
    spent += minutes[cell] ?? Number.POSITIVE_INFINITY;
    now = after[cell] ?? 0;
    const shown: number = outcomes[at.test]?.[state] ?? 0;
    at = at.ways.find(({ outcome }) => outcome === shown)?.plan;
  }
  return spent;
}
