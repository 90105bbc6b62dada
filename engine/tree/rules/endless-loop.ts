import type { TreeProblem } from '../tree-problem.ts';
import type { RuleInput } from './rule-input.ts';
import { reaching } from './step-graph.ts';
import { strongComponents } from './strong-components.ts';

/**
 * No walk can go round for ever: from every step some finding, handoff or other tree can be reached by its ways on. A
 * loop that some way leaves is a repeated try, and is fine.
 */
export function endlessLoop({ tree, places, graph, notes }: RuleInput): readonly TreeProblem[] {
  const ends = tree.steps.flatMap((step, i) => {
    const ways = graph.ways[i] ?? [];
    const isEnd = step.kind === 'finding' || step.kind === 'handoff' || ways.length === 0 || notes[i]?.doubtfulWays;
    return isEnd || ways.some(({ to }) => typeof to !== 'number') ? [i] : [];
  });
  const leaving = reaching(ends, graph);
  if (leaving.size === tree.steps.length) return [];
  const next = graph.ways.map((ways, i) => (leaving.has(i) ? [] : ways.flatMap(({ to }) => (typeof to === 'number' ? [to] : []))));
  return strongComponents(next).flatMap((component): TreeProblem[] => {
    const members = new Set(component);
    const [first] = component;
    // Only the loops that nothing leads out of; what leads into them is told by them.
    if (first === undefined || leaving.has(first) || component.some((i) => next[i]?.some((to) => !members.has(to)))) return [];
    const loop = shortestLoop(first, next);
    const titles = loop.map((i) => tree.steps[i]?.title ?? '');
    const step = tree.steps[first]?.id;
    const place = places.steps[first]?.heading ?? places.start;
    return [{ code: 'endless-loop', titles, step, place, path: [...titles, titles[0] ?? ''] }];
  });
}

/** The shortest way from a step back to itself. */
function shortestLoop(start: number, next: readonly (readonly number[])[]): readonly number[] {
  const from = new Map<number, number>();
  const queue = [start];
  for (const node of queue) {
    for (const to of next[node] ?? []) {
      if (to === start) {
        const loop = [node];
        for (let at = from.get(node); at !== undefined; at = from.get(at)) loop.unshift(at);
        return loop;
      }
      if (from.has(to)) continue;
      from.set(to, node);
      queue.push(to);
    }
  }
  return [start];
}
