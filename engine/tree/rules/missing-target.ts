import type { Place } from '../../problem.ts';
import { didYouMean } from '../did-you-mean.ts';
import { targetOf } from '../reader/read-ways.ts';
import { type Target, waysOf } from '../tree.ts';
import { keyPlace, type LinkPlace } from '../tree-places.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';
import { nearestStep } from './step-graph.ts';

/** Every way on, every link and every figure leads to something that there is. */
export function missingTarget(input: RuleInput): readonly TreeProblem[] {
  const { tree, places } = input;
  const ofSteps = eachStep(input, ({ step, places: own }) => [
    ...waysOf(step).flatMap((way, i) => ofTarget(way.to, own.ways[i]?.to ?? own.task, input)),
    ...(step.cannot ? ofTarget(step.cannot, own.cannot?.to ?? own.task, input) : []),
    ...own.links.flatMap((link) => ofLink(link, input)),
  ]);
  return [...places.opening.links.flatMap((link) => ofLink(link, input)), ...ofSteps, ...ofHandoff(tree.handoff, input)];
}

function ofHandoff(handoff: string | undefined, { tree, graph, places }: RuleInput): readonly TreeProblem[] {
  if (handoff === undefined || graph.indexOf.has(handoff)) return [];
  const handoffs = tree.steps.flatMap((step) => (step.kind === 'handoff' ? [step.id] : []));
  const suggestion = didYouMean(handoff, handoffs) ?? handoffs[0];
  return [{ code: 'missing-target', what: 'handoff', name: handoff, suggestion, place: keyPlace(places, 'handoff') }];
}

function ofTarget(to: Target, place: Place, { graph, surroundings }: RuleInput): readonly TreeProblem[] {
  if (to.tree === undefined) {
    return graph.indexOf.has(to.step)
      ? []
      : [{ code: 'missing-target', what: 'step', name: to.step, suggestion: nearestStep(to.step, graph), place }];
  }
  const { trees } = surroundings;
  const other = Object.hasOwn(trees, to.tree) ? trees[to.tree] : undefined;
  if (!other) return [{ code: 'missing-target', what: 'tree', name: to.tree, suggestion: didYouMean(to.tree, Object.keys(trees)), place }];
  if (Object.hasOwn(other.steps, to.step)) return [];
  return [
    { code: 'missing-target', what: 'step-of-tree', name: to.step, tree: to.tree, suggestion: didYouMean(to.step, Object.keys(other.steps)), place },
  ];
}

function ofLink({ url, place }: LinkPlace, input: RuleInput): readonly TreeProblem[] {
  if (url.startsWith('figures/')) {
    const { figures } = input.surroundings;
    if (!figures || figures.includes(url)) return [];
    return [{ code: 'missing-target', what: 'figure', name: url, suggestion: didYouMean(url, figures), place }];
  }
  const to = targetOf(url, { tree: input.tree.name, surroundings: input.surroundings });
  return to ? ofTarget(to, place, input) : [];
}
