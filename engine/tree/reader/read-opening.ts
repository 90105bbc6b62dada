import type { RootContent } from 'mdast';
import type { Place } from '../../problem.ts';
import type { Caution, Tree } from '../tree.ts';
import type { LinkPlace } from '../tree-places.ts';
import { isComponentPiece, piecesOf } from './component-nodes.ts';
import { tagPlace } from './read-attributes.ts';
import { readBlocks } from './read-prose.ts';
import { readCaution } from './read-section.ts';
import type { ReaderContext } from './reader-context.ts';

export type ReadOpening = {
  readonly opening: Tree['opening'];
  readonly cautions: readonly Place[];
  readonly links: readonly LinkPlace[];
  readonly cautionLost: boolean;
};

/** Reads what stands before the first step: prose, and the cautions that stand on every step. */
export function readOpening(nodes: readonly RootContent[], context: ReaderContext): ReadOpening {
  const parts = { cautions: [] as Caution[], cautionPlaces: [] as Place[], links: [] as LinkPlace[], cautionLost: false };
  const prose: RootContent[] = [];
  for (const piece of piecesOf(nodes)) {
    if (!isComponentPiece(piece)) prose.push(piece);
    else if (piece.component === 'Caution') readCaution(piece.node, piece.children, parts, context);
    else context.report({ code: 'misplaced-component', name: piece.component, why: 'in-opening', place: tagPlace(piece.node, context) });
  }
  return {
    opening: { cautions: parts.cautions, prose: readBlocks(prose, context, parts.links) },
    cautions: parts.cautionPlaces,
    links: parts.links,
    cautionLost: parts.cautionLost,
  };
}
