import { type Step, waysOf } from '../tree.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';
import { nearestStep, reachedFrom, type StepGraph } from './step-graph.ts';

/** Every step is on some path from the first, from the recheck, or is where `cannot` goes. */
export function unreachableStep(input: RuleInput): readonly TreeProblem[] {
  const { tree, graph, notes } = input;
  const starts = [0, graph.indexOf.get(tree.recheck?.step ?? ''), graph.indexOf.get(tree.handoff ?? '')].filter((i) => i !== undefined);
  // A link with a slip of the pen is reported as such; the step that it was meant for is not unreachable as well.
  for (const step of tree.steps) {
    for (const { to } of [...waysOf(step), ...(step.cannot ? [{ to: step.cannot }] : [])]) {
      if (to.tree !== undefined || graph.indexOf.has(to.step)) continue;
      const meant = graph.indexOf.get(nearestStep(to.step, graph) ?? '');
      if (meant !== undefined) starts.push(meant);
    }
  }
  const reached = reachedFrom(starts, graph);
  // Where some way could not be read, or was not written, nobody can say what it leads to.
  if ([...reached].some((i) => notes[i]?.doubtfulWays || isDeadEnd(i, graph, tree.steps[i]))) return [];
  return eachStep(input, ({ step, places, index }) =>
    reached.has(index) || graph.indexOf.get(step.id) !== index ? [] : [{ code: 'unreachable-step', title: step.title, place: places.heading }],
  );
}

const isDeadEnd = (index: number, graph: StepGraph, step: Step | undefined): boolean =>
  step?.kind !== 'finding' && step?.kind !== 'handoff' && graph.ways[index]?.length === 0;
