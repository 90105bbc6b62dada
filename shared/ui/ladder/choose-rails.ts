import { across, edgesByNode } from './blocks-of.ts';
import { type Edge, isSupply } from './circuit-edges.ts';

/** The two nodes that a ladder's rungs lie between, hot on the left, and the supply that makes them so. */
export type Rails = { readonly left: string; readonly right: string; readonly supply: Edge | undefined };

/** What may stand between a supply and its rail. */
const FEEDS: ReadonlySet<string> = new Set(['wire', 'fuse', 'switch']);

/**
 * The rails of a block: the ends of its supply, moved outward through the supply's own fuse, switch and wires to where the circuit branches, or
 * from a point that nobody can touch to one that can be touched.
 */
export function chooseRails(block: readonly Edge[], terminals: ReadonlySet<string>): Rails {
  const at = edgesByNode(block);
  const supply = mainSupply(block);
  if (!supply) return { ...busiest(at, block), supply: undefined };
  const walked = new Set<Edge>([supply]);
  const outward = (start: string): string => {
    let rail = start;
    for (;;) {
      const run = feedRun(rail, at, walked);
      const last = run.at(-1);
      const [first] = run;
      if (!first || !last) return rail;
      const far = last.node;
      const branches = (at.get(far)?.length ?? 0) > 2;
      const taken = branches ? run : isSupply(first.edge) || (!terminals.has(rail) && terminals.has(first.node)) ? [first] : [];
      if (taken.length === 0) return rail;
      for (const { edge, node } of taken) {
        walked.add(edge);
        rail = node;
      }
    }
  };
  const left = outward(supply.from);
  const right = outward(supply.to);
  // A loop with no branches at all can be walked round to where it began.
  return left === right ? { left: supply.from, right: supply.to, supply } : { left, right, supply };
}

/** Power from outside before a board's own DC; else the first in the file. */
function mainSupply(block: readonly Edge[]): Edge | undefined {
  const supplies = block.filter(isSupply).toSorted((a, b) => a.index - b.index);
  return supplies.find(({ spec }) => spec.kind !== 'dc-source') ?? supplies[0];
}

type Step = { readonly edge: Edge; readonly node: string };

/** From a node with one way on, the feeds in a row up to where they branch or end; a second supply alone, as it always belongs to the first. */
function feedRun(start: string, at: ReadonlyMap<string, readonly Edge[]>, walked: ReadonlySet<Edge>): readonly Step[] {
  const run: Step[] = [];
  let node = start;
  for (;;) {
    const ways = at.get(node) ?? [];
    const on = ways.filter((edge) => !walked.has(edge) && !run.some((step) => step.edge === edge));
    const [edge] = on;
    if (ways.length !== 2 || on.length !== 1 || !edge) return run;
    const supply = isSupply(edge);
    if (!supply && !FEEDS.has(edge.spec.kind)) return run;
    if (supply && run.length > 0) return run;
    node = across(edge, node);
    run.push({ edge, node });
    if (supply) return run;
  }
}

/** Without a supply: the two nodes where most meets, the earlier in the file first. */
function busiest(at: ReadonlyMap<string, readonly Edge[]>, block: readonly Edge[]): { readonly left: string; readonly right: string } {
  const [first] = block;
  const [left, right] = [...at.entries()].toSorted(([, a], [, b]) => b.length - a.length).map(([node]) => node);
  return { left: left ?? first?.from ?? '', right: right ?? first?.to ?? '' };
}
