import fc from 'fast-check';
import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { circuitEdges, type Edge } from './circuit-edges.ts';
import { edgesIn, type Net, nodesIn } from './net.ts';
import { seriesParallel } from './series-parallel.ts';
import { benchOf, controlBench, partBetween } from './testing/random-bench.ts';

const ohmsOf = ({ index }: Edge): number => 10 + 7 * index;

/** Resistance by the rules for series and parallel. */
function ohms(net: Net): number {
  if (net.kind === 'part') return ohmsOf(net.edge);
  if (net.kind === 'series') return net.items.reduce((sum, item) => sum + ohms(item), 0);
  return 1 / net.branches.reduce((sum, branch) => sum + 1 / ohms(branch), 0);
}

/** Resistance by nodal analysis: 1 A driven through the network, solved by a general library. */
function nodalOhms(edges: readonly Edge[], from: string, to: string): number {
  const nodes = [...new Set(edges.flatMap((edge) => [edge.from, edge.to]))].filter((node) => node !== to);
  const y = Matrix.zeros(nodes.length, nodes.length);
  for (const edge of edges) {
    const [a, b] = [nodes.indexOf(edge.from), nodes.indexOf(edge.to)];
    const siemens = 1 / ohmsOf(edge);
    if (a >= 0) y.set(a, a, y.get(a, a) + siemens);
    if (b >= 0) y.set(b, b, y.get(b, b) + siemens);
    if (a >= 0 && b >= 0) {
      y.set(a, b, y.get(a, b) - siemens);
      y.set(b, a, y.get(b, a) - siemens);
    }
  }
  const amps = Matrix.columnVector(nodes.map((node) => (node === from ? 1 : 0)));
  return solve(y, amps).get(nodes.indexOf(from), 0);
}

const edgesOf = (...pairs: readonly (readonly [string, string])[]): readonly Edge[] =>
  circuitEdges(benchOf(pairs.map(([a, b]) => partBetween('resistor', [a, b])))).edges;

describe('seriesParallel', () => {
  it('reads any series-parallel circuit whole, with the resistance that nodal analysis finds', () => {
    fc.assert(
      fc.property(controlBench, (bench) => {
        const edges = circuitEdges(bench).edges.filter(
          ({ from, to, piece }) => piece === 'whole' && ![from, to].some((node) => /^(L1|N|ground.*)$/.test(node)),
        );
        fc.pre(edges.length > 0);
        const read = seriesParallel(edges, 'R', 'C', undefined);
        expect(read?.stubs).toEqual([]);
        expect(read && edgesIn(read.net).length).toBe(edges.length);
        expect(read && ohms(read.net)).toBeCloseTo(nodalOhms(edges, 'R', 'C'), 6);
      }),
      { seed: 71, numRuns: 150 },
    );
  });

  it('takes one arm out of a bridge and loses nothing', () => {
    const bridge = edgesOf(['A', 'B'], ['A', 'C'], ['B', 'C'], ['B', 'D'], ['C', 'D']);
    const read = seriesParallel(bridge, 'A', 'D', undefined);
    expect(read?.stubs).toHaveLength(1);
    expect(read && [...edgesIn(read.net), ...read.stubs.flatMap(({ net }) => edgesIn(net))]).toHaveLength(5);
    expect(read && nodesIn(read.net).toSorted()).toEqual(['B', 'C']);
  });

  it('takes the arm between two rungs rather than a rung', () => {
    const read = seriesParallel(edgesOf(['A', 'B'], ['A', 'C'], ['B', 'D'], ['C', 'D'], ['B', 'C']), 'A', 'D', undefined);
    expect(read?.stubs).toMatchObject([{ net: { kind: 'part', from: 'B', to: 'C' }, end: { kind: 'elsewhere', node: 'C' } }]);
  });

  it('reads from the first node to the second', () => {
    const read = seriesParallel(edgesOf(['B', 'A'], ['C', 'B'], ['C', 'D']), 'A', 'D', undefined);
    expect(read?.net).toMatchObject({ kind: 'series', from: 'A', to: 'D', nodes: ['B', 'C'] });
  });

  it('never takes the supply out while anything else will do', () => {
    const edges = edgesOf(['A', 'D'], ['A', 'B'], ['A', 'C'], ['B', 'C'], ['B', 'D'], ['C', 'D'], ['B', 'E'], ['E', 'C'], ['E', 'D']);
    const supply = edges.find(({ from, to }) => from === 'B' && to === 'C');
    const read = seriesParallel(edges, 'A', 'D', supply);
    expect(read?.stubs.flatMap(({ net }) => edgesIn(net))).not.toContain(supply);
  });
});
