import type { Prose as ProseData } from '../../engine/tree/index.ts';
import { Prose, type StepReference } from '../../shared/ui/prose.tsx';
import { treeAddress } from '../desk-route.ts';
import { useDocument } from './document-context.ts';

/** Prose of the document: its links to steps lead to the desk's own pages, its pictures are those of the trees folder. */
export function DocumentProse({ prose }: { readonly prose: ProseData }) {
  const { tree, figures } = useDocument();
  const stepHref = (to: StepReference): string => treeAddress(to.tree ?? tree.name, to.step);
  return <Prose prose={prose} stepHref={stepHref} figures={figures} />;
}
