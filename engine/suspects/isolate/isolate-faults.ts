import { ExactSearch, MOST_SETS } from '../search/exact-search.ts';
import { InformationGain, type Policy, partsOf, Rollout } from '../search/greedy-search.ts';
import { lowerBound } from '../search/lower-bound.ts';
import { SetBounds } from '../search/set-bounds.ts';
import { SuspectSets } from '../search/suspect-sets.ts';
import { planOf, type TestPlan } from '../search/test-plan.ts';
import type { IsolationProblem } from './isolation-problem.ts';

/** The best order found to tell a bench's faults apart. */
export type Isolation = {
  readonly plan: TestPlan;
  /** Expected minutes to the finding over the fault weights, set-up included. */
  readonly minutes: number;
  readonly method: 'exact' | 'rollout';
  /** No tree over these tests takes less. */
  readonly bound: number;
  /** Sets opened by the exact search. */
  readonly visited: number;
};

/**
 * Orders the tests of a bench. The complaint is seen first, as every call begins, where a test shows it; `from: 'anything'` leaves that open. Exact
 * within `most` sets, else rollout on information gain a minute.
 */
export function isolateFaults(
  { problem, complaint }: IsolationProblem,
  {
    from = 'complaint',
    most = MOST_SETS,
    progress,
  }: { readonly from?: 'complaint' | 'anything'; readonly most?: number; readonly progress?: (opened: number) => void } = {},
): Isolation {
  const sets = new SuspectSets(problem);
  const all = sets.whole();
  const exact = new ExactSearch(sets, most, { progress });
  const first = from === 'complaint' && complaint >= 0 ? complaint : -1;
  const begin = first < 0 ? [all] : partsOf(sets, all, first);
  const within = begin.every((set) => exact.minutes(set) !== undefined);
  const policy: Policy = within
    ? { minutes: (set) => exact.minutes(set) ?? 0, test: (set) => exact.test(set) }
    : new Rollout(sets, new InformationGain(sets));
  const own = first < 0 ? 0 : (problem.minutes[first * problem.setUps] ?? 0) * sets.weight(all);
  const chooser = { test: (set: number): number => (set === all && first >= 0 ? first : policy.test(set)) };
  const weight = sets.weight(all);
  const bounds = new SetBounds(sets);
  return {
    plan: planOf(sets, chooser, all),
    minutes: weight > 0 ? begin.reduce((sum, set) => sum + policy.minutes(set), own) / weight : 0,
    method: within ? 'exact' : 'rollout',
    bound: Math.max(lowerBound(problem), weight > 0 ? begin.reduce((sum, set) => sum + bounds.ofSet(set), own) / weight : 0),
    visited: exact.visited,
  };
}
