import type { Step, Target, Tree } from './tree.ts';

/** The id of the Handoff where `cannot` goes when a step names no other way: the one that the tree names, or its first. */
export function handoffOf(tree: Tree): string | undefined {
  return tree.handoff ?? tree.steps.find((step) => step.kind === 'handoff')?.id;
}

/** Where `cannot` leads from a step; undefined on a finding, on a handoff, and where there is no way. */
export const cannotOf = (tree: Tree, step: Step): Target | undefined => cannotWith(handoffOf(tree), step);

/** As `cannotOf`, with the tree's handoff already found: for all steps of a long tree. */
export function cannotWith(handoff: string | undefined, step: Step): Target | undefined {
  if (step.kind === 'finding' || step.kind === 'handoff') return undefined;
  return step.cannot ?? (handoff === undefined ? undefined : { step: handoff });
}
