import { type Bench, GROUND, type Part } from '../../../engine/bench/index.ts';
import { blocksOf } from './blocks-of.ts';

/** Which of a part's windings an edge is; every other part is one edge. */
export type Piece = 'whole' | 'primary' | 'secondary';

/** A part between two nodes, hot end first where the kind has one. `index` counts in the order of the file. */
export type Edge = {
  readonly index: number;
  readonly part: string;
  readonly spec: Part;
  readonly piece: Piece;
  readonly from: string;
  readonly to: string;
};

/** A connection to ground of its own; `#` is in no node's name, so it cannot be taken for one. */
const groundAt = (index: number, end: number): string => `${GROUND}#${index * 2 + end}`;

export const isGroundSymbol = (node: string): boolean => node.startsWith(`${GROUND}#`);

/** The name that the bench gives a node. */
export const nodeName = (node: string): string => (isGroundSymbol(node) ? GROUND : node);

/** Puts power into its two nodes. */
export const isSupply = ({ spec, piece }: Edge): boolean => piece === 'secondary' || spec.kind === 'source' || spec.kind === 'dc-source';

/** Every part with ends as edges of a graph, and the names of those that have none. */
export function circuitEdges(bench: Bench): { readonly edges: readonly Edge[]; readonly endless: readonly string[] } {
  const edges: Edge[] = [];
  const endless: string[] = [];
  const add = (part: string, spec: Part, piece: Piece, [from, to]: readonly [string, string]): void => {
    edges.push({ index: edges.length, part, spec, piece, from, to });
  };
  for (const [part, spec] of Object.entries(bench.parts)) {
    if (spec.kind === 'transformer') {
      add(part, spec, 'primary', spec.primary);
      add(part, spec, 'secondary', spec.secondary);
    } else if ('between' in spec) add(part, spec, 'whole', spec.between);
    else endless.push(part);
  }
  return { edges: withGroundSymbols(edges), endless };
}

/**
 * Ground is drawn as a symbol wherever something is bonded to it, or every circuit of a house would be one tangle. Only a loop
 * whose supply stands on ground itself keeps it as a node.
 */
function withGroundSymbols(edges: readonly Edge[]): readonly Edge[] {
  const touches = ({ from, to }: Edge): boolean => from === GROUND || to === GROUND;
  const kept = new Set<Edge>();
  if (edges.some((edge) => isSupply(edge) && touches(edge))) {
    for (const block of blocksOf(edges)) {
      if (block.some((edge) => isSupply(edge) && touches(edge))) for (const edge of block) kept.add(edge);
    }
  }
  return edges.map((edge) => {
    if (kept.has(edge) || !touches(edge)) return edge;
    const { index, from, to } = edge;
    return { ...edge, from: from === GROUND ? groundAt(index, 0) : from, to: to === GROUND ? groundAt(index, 1) : to };
  });
}
