import { type Step, type Target, type Tree, waysOf } from '../../engine/tree/index.ts';

/** A way out of a step as the document shows it: what leads there, and where. */
export type WayOut = { readonly on: string; readonly to: Target };

/** A way into a step: from where and on what. */
export type WayIn = { readonly from: Step; readonly on: string };

/** The ways on that a step itself names, `cannot` last. Where `cannot` leads otherwise is the tree's to say, once. */
export function waysOut(step: Step): readonly WayOut[] {
  return [...waysOf(step), ...(step.cannot ? [{ on: 'cannot', to: step.cannot }] : [])];
}

/** For each step of a tree, the ways that lead to it from the same tree, in document order. `cannot` counts only where the step names it itself. */
export function waysIn(tree: Tree): ReadonlyMap<string, readonly WayIn[]> {
  const into = new Map<string, WayIn[]>();
  const add = (to: Target, from: Step, on: string): void => {
    if (to.tree !== undefined && to.tree !== tree.name) return;
    into.set(to.step, [...(into.get(to.step) ?? []), { from, on }]);
  };
  for (const step of tree.steps) {
    for (const { on, to } of waysOf(step)) add(to, step, on);
    if (step.cannot) add(step.cannot, step, 'cannot');
  }
  return into;
}

/** The number that the document gives a step, from 1. */
export const stepNumbers = (tree: Tree): ReadonlyMap<string, number> => new Map(tree.steps.map((step, index) => [step.id, index + 1]));
