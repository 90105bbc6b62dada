import type { Edge } from './circuit-edges.ts';

/** A two-ended piece of a circuit, read from `from` to `to`: one part, pieces in a row, or pieces side by side. */
export type Net = PartNet | SeriesNet | ParallelNet;

type Ends = { readonly from: string; readonly to: string };
export type PartNet = Ends & { readonly kind: 'part'; readonly edge: Edge };
/** `nodes` lie between the items, one fewer than there are items. */
export type SeriesNet = Ends & { readonly kind: 'series'; readonly items: readonly Net[]; readonly nodes: readonly string[] };
export type ParallelNet = Ends & { readonly kind: 'parallel'; readonly branches: readonly Net[] };

export const partNet = (edge: Edge): PartNet => ({ kind: 'part', edge, from: edge.from, to: edge.to });

/** The same piece read from the other end. */
export function turned(net: Net): Net {
  const ends = { from: net.to, to: net.from };
  if (net.kind === 'series') return { ...net, ...ends, items: net.items.map(turned).reverse(), nodes: net.nodes.toReversed() };
  return net.kind === 'parallel' ? { ...net, ...ends, branches: net.branches.map(turned) } : { ...net, ...ends };
}

/** The piece read away from a node that it ends on. */
export const readFrom = (net: Net, node: string): Net => (net.from === node ? net : turned(net));

/** Two pieces joined at the first's far end. */
export function inSeries(first: Net, second: Net): SeriesNet {
  const [a, b] = [listed(first), listed(second)];
  return { kind: 'series', from: first.from, to: second.to, items: [...a.items, ...b.items], nodes: [...a.nodes, first.to, ...b.nodes] };
}

const listed = (net: Net): Pick<SeriesNet, 'items' | 'nodes'> => (net.kind === 'series' ? net : { items: [net], nodes: [] });

/** Pieces between the same two nodes, in the order of the file. */
export function inParallel(nets: readonly Net[], from: string, to: string): ParallelNet {
  const branches = nets.flatMap((net) => {
    const read = readFrom(net, from);
    return read.kind === 'parallel' ? read.branches : [read];
  });
  return { kind: 'parallel', from, to, branches: branches.toSorted((a, b) => firstIndex(a) - firstIndex(b)) };
}

export const branchesOf = (net: Net): readonly Net[] => (net.kind === 'parallel' ? net.branches : [net]);
export const itemsOf = (net: Net): readonly Net[] => (net.kind === 'series' ? net.items : [net]);

export function edgesIn(net: Net): readonly Edge[] {
  if (net.kind === 'part') return [net.edge];
  return (net.kind === 'series' ? net.items : net.branches).flatMap(edgesIn);
}

/** The nodes inside a piece, its two ends left out. */
export function nodesIn(net: Net): readonly string[] {
  if (net.kind === 'part') return [];
  return net.kind === 'series' ? [...net.nodes, ...net.items.flatMap(nodesIn)] : net.branches.flatMap(nodesIn);
}

/** Where the piece's first part stands in the file. */
export const firstIndex = (net: Net): number => Math.min(...edgesIn(net).map(({ index }) => index));
