import type { Paragraph, RootContent } from 'mdast';
import { type ComponentName, isComponent } from '../components.ts';
import type { ComponentNode } from './read-attributes.ts';

export type Piece = { readonly component: ComponentName; readonly node: ComponentNode; readonly children: readonly RootContent[] } | RootContent;

export const isComponentPiece = (piece: Piece): piece is Extract<Piece, { component: ComponentName }> => 'component' in piece;

/**
 * The known components among the nodes of a section, and the rest. A component on one line with its text, such as
 * `<Caution …>Mind the edge.</Caution>`, comes from the parser inside a paragraph; it counts as standing by itself.
 */
export function piecesOf(nodes: readonly RootContent[]): readonly Piece[] {
  return nodes.flatMap((node): readonly Piece[] => {
    if (node.type === 'mdxJsxFlowElement' && node.name !== null && isComponent(node.name)) {
      return [{ component: node.name, node, children: node.children }];
    }
    if (node.type !== 'paragraph' || !standsAlone(node)) return [node];
    return node.children.flatMap((child): readonly Piece[] => {
      if (child.type !== 'mdxJsxTextElement' || child.name === null || !isComponent(child.name)) return [];
      return [{ component: child.name, node: child, children: wrapped(child) }];
    });
  });
}

const standsAlone = (paragraph: Paragraph): boolean =>
  paragraph.children.some((child) => child.type === 'mdxJsxTextElement') &&
  paragraph.children.every(
    (child) =>
      (child.type === 'mdxJsxTextElement' && child.name !== null && isComponent(child.name)) || (child.type === 'text' && child.value.trim() === ''),
  );

function wrapped(node: Extract<ComponentNode, { type: 'mdxJsxTextElement' }>): readonly RootContent[] {
  const first = node.children[0];
  const last = node.children.at(-1);
  if (!first || !last) return [];
  const position = first.position && last.position ? { start: first.position.start, end: last.position.end } : undefined;
  return [{ type: 'paragraph', children: node.children, ...(position && { position }) }];
}
