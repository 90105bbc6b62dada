import type { TreeProblem } from '../tree-problem.ts';
import type { RuleInput } from './rule-input.ts';

/** A walk starts at the first step; there must be one. */
export function noStart({ tree, places }: RuleInput): readonly TreeProblem[] {
  return tree.steps.length > 0 ? [] : [{ code: 'no-start', place: places.start }];
}
