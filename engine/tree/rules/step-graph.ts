import { didYouMean } from '../did-you-mean.ts';
import { cannotWith, handoffOf } from '../handoff-of.ts';
import { type Target, type Tree, waysOf } from '../tree.ts';

/** Where a way leads: a step by its index, another tree, or nowhere. */
export type Lead = number | 'elsewhere' | 'missing';

export type GraphWay = { readonly on: string; readonly to: Lead };

/** The steps of a tree and the ways between them; the first step with an id holds it. */
export type StepGraph = {
  readonly indexOf: ReadonlyMap<string, number>;
  /** The ways on of each step, without `cannot`. */
  readonly ways: readonly (readonly GraphWay[])[];
  /** Where `cannot` leads from each step. */
  readonly cannot: readonly (Lead | undefined)[];
};

export function stepGraph(tree: Tree): StepGraph {
  const indexOf = new Map<string, number>();
  for (const [i, step] of tree.steps.entries()) if (!indexOf.has(step.id)) indexOf.set(step.id, i);
  const handoff = handoffOf(tree);
  const lead = (to: Target): Lead => (to.tree !== undefined ? 'elsewhere' : (indexOf.get(to.step) ?? 'missing'));
  return {
    indexOf,
    ways: tree.steps.map((step) => waysOf(step).map((way) => ({ on: way.on, to: lead(way.to) }))),
    cannot: tree.steps.map((step) => {
      const to = cannotWith(handoff, step);
      return to && lead(to);
    }),
  };
}

/** Steps that can be reached from the given ones by ways on and `cannot`, themselves included. */
export function reachedFrom(starts: readonly number[], graph: StepGraph): ReadonlySet<number> {
  const reached = new Set(starts);
  for (const i of reached) {
    for (const { to } of graph.ways[i] ?? []) if (typeof to === 'number') reached.add(to);
    const cannot = graph.cannot[i];
    if (typeof cannot === 'number') reached.add(cannot);
  }
  return reached;
}

/** Steps from which some step of `ends` can be reached by ways on, themselves included. */
export function reaching(ends: Iterable<number>, graph: StepGraph): ReadonlySet<number> {
  const into = graph.ways.map((): number[] => []);
  for (const [i, ways] of graph.ways.entries()) for (const { to } of ways) if (typeof to === 'number') into[to]?.push(i);
  const reached = new Set(ends);
  for (const i of reached) for (const from of into[i] ?? []) reached.add(from);
  return reached;
}

/** The step that a way to a missing step was most likely meant for. */
export const nearestStep = (id: string, graph: StepGraph): string | undefined => didYouMean(id, graph.indexOf.keys());
