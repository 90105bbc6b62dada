import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';

/** Each step's id is its own. */
export function duplicateStep(input: RuleInput): readonly TreeProblem[] {
  return eachStep(input, ({ step, places, index }) => {
    const first = input.graph.indexOf.get(step.id) ?? index;
    if (first === index) return [];
    const firstLine = input.places.steps[first]?.heading.line ?? 1;
    return [{ code: 'duplicate-step', id: step.id, title: step.title, firstLine, place: places.attributes.get('id') ?? places.heading }];
  });
}
