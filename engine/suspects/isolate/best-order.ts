import type { CompiledEdition } from '../../walk/index.ts';
import { stateMinutes, type TestPlan } from '../search/test-plan.ts';
import { MOST_SETS_BESIDE_A_PROOF, measuredBench, measuredBenches } from './best-minutes.ts';
import { isolateFaults } from './isolate-faults.ts';
import type { IsolationProblem } from './isolation-problem.ts';

/** The best known order for one bench of an edition, and what it takes where one fault is there; counted with the tree's own minutes. */
export type BestOrder = {
  readonly method: 'exact' | 'rollout';
  /** Expected, over the fault weights. */
  readonly minutes: number;
  /** Minutes until that fault (undefined: nothing wrong) is found; undefined where the bench has no such fault. */
  of(fault: string | undefined): number | undefined;
};

/** The best order for a bench that an edition's tree is about; undefined where it is about none of that name. Slow: once an edition. */
export function bestOrder(edition: CompiledEdition, bench: string, most = MOST_SETS_BESIDE_A_PROOF): BestOrder | undefined {
  const measured = measuredBenches(edition).includes(bench) ? measuredBench(edition, bench) : undefined;
  if (!measured) return undefined;
  const { plan, method, minutes } = isolateFaults(measured.problem, { from: measured.from, most });
  return { method, minutes, of: (fault) => faultMinutes(measured.problem, plan, fault) };
}

/** Over the houses in which a fault shows itself differently, by their shares. */
function faultMinutes({ problem, states, shows }: IsolationProblem, plan: TestPlan, fault: string | undefined): number | undefined {
  const of = states.flatMap((state, i) => (state.fault === fault ? [{ i, share: shareOf(state.houses, shows.houses) }] : []));
  const whole = of.reduce((sum, { share }) => sum + share, 0);
  if (whole <= 0) return undefined;
  return of.reduce((sum, { i, share }) => sum + share * stateMinutes(problem, plan, i), 0) / whole;
}

const shareOf = (of: readonly number[], houses: readonly { readonly share: number }[]): number =>
  of.reduce((sum, house) => sum + (houses[house]?.share ?? 0), 0);
