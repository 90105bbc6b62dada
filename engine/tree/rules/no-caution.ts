import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';

/** Every step has a caution: its own, or one of the opening's, which stand on every step. */
export function noCaution(input: RuleInput): readonly TreeProblem[] {
  if (input.doubtfulOpening || input.tree.opening.cautions.length > 0) return [];
  return eachStep(input, ({ step, places, note }) =>
    step.cautions.length > 0 || note.doubtfulCautions ? [] : [{ code: 'no-caution', title: step.title, place: places.heading }],
  );
}
