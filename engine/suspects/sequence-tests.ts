import { ExactSearch, MOST_SETS } from './search/exact-search.ts';
import { InformationGain, Rollout } from './search/greedy-search.ts';
import { lowerBound } from './search/lower-bound.ts';
import { SuspectSets } from './search/suspect-sets.ts';
import { planOf, type TestPlan } from './search/test-plan.ts';
import { matrixProblem, type TestMatrix } from './test-matrix.ts';

/** How well a matrix's states can be told apart, in expected minutes. */
export type Sequence = {
  /** The least there is where the method is exact; else that of the rollout, the best tree found. */
  readonly optimum: number;
  readonly method: 'exact' | 'rollout';
  /** Tests that a best tree can begin with; where the method is not exact, the one that the rollout begins with. */
  readonly firstTests: readonly string[];
  readonly informationGain: number;
  readonly rollout: number;
  /** No tree is better than this. */
  readonly bound: number;
  /** Sets of states opened by the exact search, and the most that it may. */
  readonly visited: number;
  readonly most: number;
  readonly plan: TestPlan;
};

/** Puts the tests of a matrix in order: exactly where the search stays within `most` sets, by rollout on information gain a minute beyond. */
export function sequenceTests(
  matrix: TestMatrix,
  { start = 0, most = MOST_SETS }: { readonly start?: number; readonly most?: number } = {},
): Sequence {
  const problem = matrixProblem(matrix, start);
  const sets = new SuspectSets(problem);
  const all = sets.whole();
  const whole = sets.weight(all);
  const gain = new InformationGain(sets);
  const rollout = new Rollout(sets, gain);
  const exact = new ExactSearch(sets, most, { rollout });
  const best = exact.minutes(all);
  const name = (test: number): string => matrix.tests[test] ?? '';
  const first = best === undefined ? [rollout.test(all)].filter((test) => test >= 0) : exact.firstTests(all);
  return {
    optimum: (best ?? rollout.minutes(all)) / whole,
    method: best === undefined ? 'rollout' : 'exact',
    firstTests: first.map(name),
    informationGain: gain.minutes(all) / whole,
    rollout: rollout.minutes(all) / whole,
    bound: lowerBound(problem),
    visited: exact.visited,
    most,
    plan: planOf(sets, best === undefined ? rollout : exact, all),
  };
}
