import { waysOf } from '../tree.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';

/** Every step but a finding and a handoff leads on. A step with `cannot` alone is told what it lacks instead. */
export function deadEnd(input: RuleInput): readonly TreeProblem[] {
  return eachStep(input, ({ step, places, note }) => {
    if (step.kind === 'finding' || step.kind === 'handoff' || note.doubtfulWays || waysOf(step).length > 0) return [];
    if (step.cannot && (step.kind === 'act' || step.kind === 'look')) return [];
    return [{ code: 'dead-end', title: step.title, kind: step.kind, place: places.heading }];
  });
}
