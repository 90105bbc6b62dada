/** Anything that joins two nodes. */
type Link = { readonly from: string; readonly to: string };

/** The edges at each node. An edge from a node to itself is left out. */
export function edgesByNode<E extends Link>(edges: readonly E[]): ReadonlyMap<string, readonly E[]> {
  const at = new Map<string, E[]>();
  const add = (node: string, edge: E): void => {
    const list = at.get(node);
    if (list) list.push(edge);
    else at.set(node, [edge]);
  };
  for (const edge of edges) {
    if (edge.from === edge.to) continue;
    add(edge.from, edge);
    add(edge.to, edge);
  }
  return at;
}

/** The other end of an edge. */
export const across = ({ from, to }: Link, node: string): string => (from === node ? to : from);

type Visit<E> = { readonly node: string; readonly by: E | undefined; readonly order: number; low: number; next: number };

/**
 * The blocks of a graph: the largest sets of edges in which every two lie on a common loop; an edge on no loop is a block alone. Depth
 * first search with low points (Hopcroft and Tarjan 1973), with a stack of its own so that a long chain cannot exhaust the program's.
 */
export function blocksOf<E extends Link>(edges: readonly E[]): readonly (readonly E[])[] {
  const at = edgesByNode(edges);
  const order = new Map<string, number>();
  const blocks: E[][] = [];
  for (const root of at.keys()) {
    if (order.has(root)) continue;
    const open: E[] = [];
    const used = new Set<E>();
    const enter = (node: string, by: E | undefined): Visit<E> => {
      const place = order.size;
      order.set(node, place);
      return { node, by, order: place, low: place, next: 0 };
    };
    const path: Visit<E>[] = [enter(root, undefined)];
    for (let visit = path.at(-1); visit; visit = path.at(-1)) {
      const edge = at.get(visit.node)?.[visit.next];
      visit.next += 1;
      if (edge) {
        if (used.has(edge)) continue;
        used.add(edge);
        open.push(edge);
        const seen = order.get(across(edge, visit.node));
        if (seen === undefined) path.push(enter(across(edge, visit.node), edge));
        else visit.low = Math.min(visit.low, seen);
        continue;
      }
      path.pop();
      const above = path.at(-1);
      if (!above || !visit.by) continue;
      above.low = Math.min(above.low, visit.low);
      if (visit.low >= above.order) blocks.push(open.splice(open.indexOf(visit.by)));
    }
  }
  return blocks;
}
