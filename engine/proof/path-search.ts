import { type AsFound, afterWay, type CircuitState, type CompiledEdition, type CompiledStep, circuitKey, untouched } from '../walk/index.ts';

/** One point of the search: a step reached with a circuit in some state, and how it was first reached. */
export type PathNode = {
  readonly step: CompiledStep;
  readonly circuit: CircuitState;
  readonly from?: { readonly node: PathNode; readonly on: string };
};

export type PathSearch = {
  /** Every (step, circuit) that some walk reaches, nearest first; each holds a shortest path to it. */
  readonly nodes: readonly PathNode[];
  /** Whether the search stopped at its limit: then what it does not find is not proved absent. */
  readonly cut: boolean;
};

/** Which ways of a step a search follows; a bench of one wiring follows only its own choice. */
export type Follows = (step: CompiledStep, on: string) => boolean;

// Far above any tree that people write; a hostile one stops here and says so.
const MOST_NODES = 200_000;

/** The ways on of a step with where each leads, `cannot` included. */
export function waysFrom(step: CompiledStep): readonly (readonly [on: string, key: string])[] {
  return [...step.leadsTo, ...(step.cannot === undefined ? [] : [['cannot', step.cannot] as const])];
}

/**
 * Walks every path of an edition at once: breadth-first over steps and what has been done to the circuit. What a reading
 * would show is not asked, so every band is followed: a claim about all nodes holds whatever is wrong with the circuit.
 */
export function searchPaths(edition: CompiledEdition, asFound: AsFound, follows: Follows = () => true): PathSearch {
  const start = edition.steps.get(edition.start);
  if (!start) return { nodes: [], cut: false };
  const seen = new Set<string>();
  const nodes: PathNode[] = [];
  const add = (node: PathNode): void => {
    const key = `${node.step.key} ${circuitKey(node.circuit)}`;
    if (seen.has(key)) return;
    seen.add(key);
    nodes.push(node);
  };
  add({ step: start, circuit: untouched(asFound) });
  for (let i = 0; i < nodes.length; i += 1) {
    if (nodes.length > MOST_NODES) return { nodes, cut: true };
    const node = nodes[i];
    if (!node) break;
    for (const [on, key] of waysFrom(node.step)) {
      const next = edition.steps.get(key);
      if (next && follows(node.step, on)) add({ step: next, circuit: afterWay(node.step, node.circuit, on), from: { node, on } });
    }
  }
  return { nodes, cut: false };
}

/** The path to a node as a tech would tell it: each step's title with the way taken, ending at the node's own step. */
export function pathTold(node: PathNode): readonly string[] {
  const told: string[] = [node.step.step.title];
  for (let at = node.from; at; at = at.node.from) told.unshift(`${at.node.step.step.title}: ${at.on}`);
  return told;
}
