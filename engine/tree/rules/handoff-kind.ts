import { keyPlace } from '../tree-places.ts';
import type { TreeProblem } from '../tree-problem.ts';
import type { RuleInput } from './rule-input.ts';

/** The step that the front matter names for `cannot` is a Handoff. */
export function handoffKind({ tree, places, graph, notes }: RuleInput): readonly TreeProblem[] {
  const index = tree.handoff === undefined ? undefined : graph.indexOf.get(tree.handoff);
  if (tree.handoff === undefined || index === undefined || tree.steps[index]?.kind === 'handoff' || notes[index]?.doubtfulTask) return [];
  return [
    {
      code: 'bad-attribute',
      owner: 'the front matter',
      name: 'handoff',
      fault: 'wrong',
      got: tree.handoff,
      expected: { form: 'handoff-step' },
      place: keyPlace(places, 'handoff'),
    },
  ];
}
