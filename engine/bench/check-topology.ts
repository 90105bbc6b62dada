import type { BenchIndex } from './bench-index.ts';
import { type BenchProblem, problemAt } from './bench-problem.ts';
import { NodeSets } from './node-sets.ts';

/**
 * The shape of the circuit with every contact closed, by graph search: each terminal must hang together with a source or a
 * transformer winding that a source can feed.
 */
export function checkTopology({ bench, parts, nodes, nodeNumber }: BenchIndex): readonly BenchProblem[] {
  const sets = new NodeSets(nodes.length + 1);
  const number = (name: string): number => (nodeNumber.get(name) ?? -1) + 1;
  const fed = new Set<number>();
  const windings: { readonly primary: number; readonly secondary: number }[] = [];
  for (const { known } of parts) {
    const [a, b, c, d] = known.ends.map((end) => number(end.node));
    if (a === undefined || b === undefined) continue;
    sets.join(a, b);
    if (known.spec.kind === 'transformer' && c !== undefined && d !== undefined) {
      sets.join(c, d);
      windings.push({ primary: a, secondary: c });
    }
    // A wire's third end is what it runs beside.
    if (known.spec.kind === 'wire' && c !== undefined) sets.join(a, c);
  }
  for (const { known } of parts) {
    const [hot] = known.ends;
    if (hot && (known.spec.kind === 'source' || known.spec.kind === 'dc-source')) fed.add(sets.find(number(hot.node)));
  }
  for (let grown = true; grown; ) {
    grown = false;
    for (const { primary, secondary } of windings) {
      // A transformer works both ways round, as a wrongly fed one does.
      for (const [from, to] of [
        [primary, secondary],
        [secondary, primary],
      ] as const) {
        if (!fed.has(sets.find(from)) || fed.has(sets.find(to))) continue;
        fed.add(sets.find(to));
        grown = true;
      }
    }
  }
  const problems: BenchProblem[] = [];
  const told = new Set<number>();
  bench.terminals.forEach((terminal, i) => {
    const set = sets.find(number(terminal));
    if (fed.has(set) || told.has(set)) return;
    told.add(set);
    const island = nodes.filter((node) => sets.find(number(node)) === set);
    problems.push(problemAt(['terminals', i], { code: 'floating-terminal', terminal, island }, { severity: 'warning' }));
  });
  return problems;
}
