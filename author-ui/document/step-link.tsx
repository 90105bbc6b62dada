import type { Target } from '../../engine/tree/index.ts';
import { titleOf } from '../data/read-shelf.ts';
import { treeAddress } from '../desk-route.ts';
import { useDocument } from './document-context.ts';

/** A step by its number and title; a step of another tree by both titles. */
export function StepLink({ to }: { readonly to: Target }) {
  const { tree, numbers, shelf } = useDocument();
  if (to.tree === undefined || to.tree === tree.name) {
    const title = tree.steps.find((step) => step.id === to.step)?.title ?? to.step;
    return (
      <a className="step-link" href={treeAddress(tree.name, to.step)}>
        <span className="step-link-number">{numbers.get(to.step)}</span> {title}
      </a>
    );
  }
  const other = shelf.find(({ name }) => name === to.tree);
  const title = other?.tree?.steps.find((step) => step.id === to.step)?.title ?? to.step;
  return (
    <a className="step-link" href={treeAddress(to.tree, to.step)}>
      {title} <span className="step-link-tree">in {other ? titleOf(other) : to.tree}</span>
    </a>
  );
}
