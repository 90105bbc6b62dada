import { didYouMean } from '../did-you-mean.ts';
import { waysOf } from '../tree.ts';
import { keyPlace } from '../tree-places.ts';
import type { TreeProblem } from '../tree-problem.ts';
import type { RuleInput } from './rule-input.ts';

/** The complaint is tried again after the repair: the tree names the step, and the way on of it that means it is gone. */
export function noRecheck({ tree, places, graph, notes, recheck, frontMatterReadable }: RuleInput): readonly TreeProblem[] {
  if (!frontMatterReadable || tree.steps.length === 0) return [];
  const place = keyPlace(places, 'recheck');
  if (!tree.recheck) return recheck === undefined && !places.keys.has('recheck') ? [{ code: 'no-recheck', why: 'not-named', place }] : [];
  const { step: id, passes } = tree.recheck;
  const index = graph.indexOf.get(id);
  const step = index === undefined ? undefined : tree.steps[index];
  if (!step || index === undefined)
    return [{ code: 'no-recheck', why: 'no-such-step', text: id, suggestion: didYouMean(id, graph.indexOf.keys()), place }];
  if (step.kind === 'finding' || step.kind === 'handoff') return [{ code: 'no-recheck', why: 'an-end', text: step.title, place }];
  const ways = waysOf(step).map((way) => way.on);
  if (notes[index]?.doubtfulWays || ways.length === 0 || ways.includes(passes)) return [];
  return [{ code: 'no-recheck', why: 'no-such-way', text: passes, suggestion: didYouMean(passes, ways) ?? ways[0], place }];
}
