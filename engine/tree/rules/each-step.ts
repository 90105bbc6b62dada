import type { Step } from '../tree.ts';
import type { StepNote } from '../tree-draft.ts';
import type { StepPlaces } from '../tree-places.ts';
import type { TreeProblem } from '../tree-problem.ts';
import type { RuleInput } from './rule-input.ts';

export type StepView = { readonly step: Step; readonly places: StepPlaces; readonly note: StepNote; readonly index: number };

/** The problems of every step, marked with its id. */
export function eachStep({ tree, places, notes }: RuleInput, check: (view: StepView) => readonly TreeProblem[]): readonly TreeProblem[] {
  return tree.steps.flatMap((step, index) => {
    const stepPlaces = places.steps[index];
    const note = notes[index];
    return stepPlaces && note ? check({ step, places: stepPlaces, note, index }).map((problem) => ({ step: step.id, ...problem })) : [];
  });
}
