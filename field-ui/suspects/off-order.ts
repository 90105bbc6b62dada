import type { PathEntry } from '../../engine/walk/index.ts';

/** The step at which a walk left the tree's order, and has not come back to. */
export type OffOrder = { readonly tree: string; readonly step: string; readonly title: string };

const isSame = (a: Pick<PathEntry, 'tree' | 'step'>, b: Pick<PathEntry, 'tree' | 'step'>): boolean => a.tree === b.tree && a.step === b.step;

/**
 * Where the tree's order waits, from a path with the open step at its end. A second jump does not change where that is; coming to the step
 * again, by whatever way, ends it, and so does a finding.
 */
export function offOrder(path: readonly PathEntry[]): OffOrder | undefined {
  let off: OffOrder | undefined;
  for (const entry of path) {
    if (off && isSame(entry, off)) off = undefined;
    if (entry.on === 'found') off = undefined;
    else if (entry.on === 'jumped' && !off) off = { tree: entry.tree, step: entry.step, title: entry.title };
  }
  return off;
}
