import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';

/** A finding that names a fault says how it is repaired. */
export function repairMissing(input: RuleInput): readonly TreeProblem[] {
  return eachStep(input, ({ step, places, note }) => {
    if (step.kind !== 'finding' || step.faults.length === 0 || step.repair.length > 0 || note.doubtfulTask) return [];
    return [{ code: 'repair-missing', title: step.title, place: places.task }];
  });
}
