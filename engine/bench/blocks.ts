/**
 * The blocks (biconnected components) of a graph: two edges are in one block when some loop runs through both. So a source can drive a
 * current through an edge only if both are in one block. Tarjan's algorithm, on edges, parallel ones included. `edges` holds pairs
 * of node numbers below `size`; the answer has a block number for each edge, -1 for an edge from a node to itself.
 */
export function blocksOf(size: number, edges: readonly (readonly [number, number])[]): Int32Array {
  const block = new Int32Array(edges.length).fill(-1);
  const around: number[][] = Array.from({ length: size }, () => []);
  for (const [i, [a, b]] of edges.entries()) {
    if (a === b) continue;
    around[a]?.push(i);
    around[b]?.push(i);
  }
  const order = new Int32Array(size).fill(-1);
  const low = new Int32Array(size);
  const stack: number[] = [];
  let clock = 0;
  let count = 0;
  // Recursion is as deep as there are nodes, which the size of a bench bounds.
  const visit = (node: number, by: number): void => {
    order[node] = clock;
    low[node] = clock;
    clock += 1;
    for (const edge of around[node] ?? []) {
      if (edge === by) continue;
      const [a, b] = edges[edge] ?? [node, node];
      const other = a === node ? b : a;
      if ((order[other] ?? -1) < 0) {
        stack.push(edge);
        visit(other, edge);
        low[node] = Math.min(low[node] ?? 0, low[other] ?? 0);
        if ((low[other] ?? 0) < (order[node] ?? 0)) continue;
        for (;;) {
          const popped = stack.pop();
          if (popped === undefined) break;
          block[popped] = count;
          if (popped === edge) break;
        }
        count += 1;
      } else if ((order[other] ?? 0) < (order[node] ?? 0)) {
        stack.push(edge);
        low[node] = Math.min(low[node] ?? 0, order[other] ?? 0);
      }
    }
  };
  for (let node = 0; node < size; node += 1) if ((order[node] ?? -1) < 0) visit(node, -1);
  return block;
}
