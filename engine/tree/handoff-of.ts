import type { Target, Tree } from './tree.ts';

/** The id of the Handoff where `cannot` goes when a step names no other way: the one that the tree names, or its first. */
export function handoffOf(tree: Tree): string | undefined {
  return tree.handoff ?? tree.steps.find((step) => step.kind === 'handoff')?.id;
}

/** Where `cannot` leads from a step; undefined on a finding, on a handoff, and where there is no way. */
export function cannotOf(tree: Tree, step: Tree['steps'][number]): Target | undefined {
  if (step.kind === 'finding' || step.kind === 'handoff') return undefined;
  if (step.cannot) return step.cannot;
  const handoff = handoffOf(tree);
  return handoff === undefined ? undefined : { step: handoff };
}
