import { isolateFaults, isolationProblem } from '../../suspects/index.ts';
import type { DrillGround } from './drill-ground.ts';
import type { DrillAnswer, DrillPathStep } from './drill-path.ts';
import { shownText } from './drill-words.ts';
import { hiddenCircuit, probeShown } from './hidden-circuit.ts';
import { allAnswers, leftAfter } from './suspects-left.ts';

/** The way that the best known order takes to the hidden fault, in this house. */
export type BestDrillPath = {
  readonly steps: readonly DrillPathStep[];
  readonly minutes: number;
  readonly method: 'exact' | 'rollout';
  /** What no reading of this circuit tells from the hidden fault, itself included: any of it is the right answer. */
  readonly group: readonly DrillAnswer[];
};

/** Sets that the search may open; a tech waits for the result. */
const MOST_SETS_BESIDE_A_DRILL = 10_000;

export function bestDrillPath(ground: DrillGround, most = MOST_SETS_BESIDE_A_DRILL): BestDrillPath {
  const { bench, minutes, meter, safety, facts, task } = ground;
  const problem = isolationProblem(bench, { minutes, meter, safety, houses: [{ facts: ground.shows.houses[0]?.facts ?? facts, share: 1 }] });
  const { plan, method } = isolateFaults(problem, { most });
  const state = problem.states.findIndex(({ fault }) => fault === task.fault);
  const steps: DrillPathStep[] = [];
  let left = allAnswers(ground);
  let at = plan;
  for (let standing = plan.setUp; at.test !== undefined; ) {
    const cell = at.test * problem.circuits.length + standing;
    const test = problem.tests[at.test];
    const setUp = problem.plans[cell];
    if (!test || !setUp) break;
    for (const move of setUp.moves) {
      if (move.kind === 'act') {
        steps.push({ does: { kind: 'act', action: move.action }, minutes: minutes.action(move.action) });
        continue;
      }
      const probe = { kind: 'reading', takes: 'ac-voltage', across: move.across } as const;
      left = leftAfter(ground, left, probe, move.circuit);
      steps.push({
        does: { kind: 'dead', across: move.across },
        minutes: minutes.dead,
        shown: shownText(probeShown(ground, hiddenCircuit(ground, move.circuit), probe)),
        left: left.length,
      });
    }
    const { probe } = test;
    left = leftAfter(ground, left, probe, setUp.circuit);
    steps.push({
      does: { kind: 'probe', probe },
      minutes: test.minutes,
      shown: shownText(probeShown(ground, hiddenCircuit(ground, setUp.circuit), probe)),
      left: left.length,
    });
    const shown: number | undefined = problem.problem.outcomes[at.test]?.[state];
    standing = problem.problem.after[cell] ?? 0;
    const next = at.ways.find(({ outcome }) => outcome === shown)?.plan;
    if (!next) break;
    at = next;
  }
  const group = [...new Set(at.states.map((each) => problem.states[each]?.fault))];
  return { steps, minutes: steps.reduce((sum, step) => sum + step.minutes, 0), method, group };
}
