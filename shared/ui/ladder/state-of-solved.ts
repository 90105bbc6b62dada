import { asFound, type Bench, energised, GROUND, partStates, type Solved } from '../../../engine/bench/index.ts';
import { knownFault } from './known-fault.ts';
import { type LadderState, LIVE_VOLTS } from './ladder-state.ts';
import { planCircuit } from './plan-circuit.ts';

/** Below this share of the most in its ladder, a node is at rest: the drop along a return wire is not power. */
const LEAST_SHARE = 0.05;

/**
 * What a solved circuit shows on its ladder: volts, states, jumpers, lifted leads, and settings that are not as found. `faults`: mark the faults
 * that are in it, for a drawing that may tell. Stray volts on a wire that nothing feeds are left out: a meter shows them, nothing runs on them.
 */
export function stateOfSolved(solved: Solved, { faults = false }: { readonly faults?: boolean } = {}): LadderState {
  const { circuit, situation } = solved;
  const { bench } = circuit.prepared;
  const parts = partStates(solved);
  const volts = drivenVolts(solved);
  const found = asFound(bench).settings;
  return {
    volts,
    energisedParts: Object.keys(bench.parts).filter((part) => isPowered(part, bench, parts[part], volts, solved)),
    parts,
    jumpers: situation.jumpers.map(([from, to]) => ({ from, to })),
    lifted: situation.lifted,
    forced: Object.fromEntries(Object.entries(situation.settings).filter(([name, state]) => found[name] !== state)),
    ...(faults && { faults: situation.faults.flatMap((name) => knownFault(bench, name) ?? []) }),
  };
}

/** Volts of every node that is at more than its return and that a supply reaches; 0 for the others. */
function drivenVolts(solved: Solved): Readonly<Record<string, number>> {
  const { bench, index } = solved.circuit.prepared;
  const found = energised(solved);
  const fed = fedNodes(solved);
  const volts = Object.fromEntries(Object.entries(found).map(([node, at]) => [node, fed.has(node) ? at.volts : 0]));
  for (const { nodes } of planCircuit(bench).ladders) {
    const loose = index.leads.filter(({ on }) => nodes.has(on)).map(({ name }) => name);
    const all = [...nodes, ...loose];
    const least = Math.max(LIVE_VOLTS, LEAST_SHARE * Math.max(0, ...all.map((node) => volts[node] ?? 0)));
    for (const node of all) if ((volts[node] ?? 0) < least) volts[node] = 0;
  }
  return volts;
}

/** Whether a part has power on it, or passes it on. */
function isPowered(
  part: string,
  bench: Bench,
  state: string | undefined,
  volts: Readonly<Record<string, number>>,
  { circuit, view }: Solved,
): boolean {
  const spec = bench.parts[part];
  if (!spec || !('between' in spec || spec.kind === 'transformer')) return false;
  const { nodeNumber } = circuit.prepared.index;
  const across = ([a, b]: readonly [string, string]): number => {
    const [i, j] = [nodeNumber.get(a), nodeNumber.get(b)];
    return i === undefined || j === undefined ? 0 : Math.max(view.volts(i, j), Math.abs(view.dcVolts(i, j)));
  };
  if (spec.kind === 'transformer') return across(spec.secondary) >= LIVE_VOLTS;
  const ends = standingOn(part, spec.between, circuit);
  const live = ends.filter((node) => (volts[node] ?? 0) > 0);
  switch (spec.kind) {
    case 'wire':
      // As live as what it joins; the drawing sees to that.
      return false;
    case 'contact':
    case 'switch':
    case 'limit':
      return state === 'closed' && live.length === 2;
    case 'fuse':
      return state === 'good' && live.length === 2;
    case 'flame':
      return state === 'lit';
    case 'source':
    case 'dc-source':
      return state === 'live';
    default:
      return live.length > 0 && across(ends) >= Math.max(LIVE_VOLTS, LEAST_SHARE * Math.max(...live.map((node) => volts[node] ?? 0)));
  }
}

/** A part's two nodes; the loose end instead of one that its lead is lifted from. */
function standingOn(part: string, [a, b]: readonly [string, string], { lifted, prepared: { index } }: Solved['circuit']): readonly [string, string] {
  const off = (index.parts[index.partNumber.get(part) ?? -1]?.leads ?? []).filter(({ name }) => lifted.has(name));
  const onto = (node: string): string => off.find(({ on }) => on === node)?.name ?? node;
  return [onto(a), onto(b)];
}

/** Nodes that something other than stray capacitance joins to a supply. */
function fedNodes({ circuit, states }: Solved): ReadonlySet<string> {
  const { branches, sources, prepared } = circuit;
  const next = new Map<number, number[]>();
  const join = (a: number, b: number): void => {
    next.set(a, [...(next.get(a) ?? []), b]);
  };
  for (const { a, b, on, off, switched, part } of branches) {
    const now = switched && states[part] === 0 ? off : on;
    if (now.dc === 0) continue;
    join(a, b);
    join(b, a);
  }
  const seen = new Set<number>();
  const todo = sources.flatMap(({ hot, back }) => [hot, back]);
  for (let node = todo.pop(); node !== undefined; node = todo.pop()) {
    if (seen.has(node)) continue;
    seen.add(node);
    todo.push(...(next.get(node) ?? []));
  }
  return new Set([...seen].map((node) => prepared.index.nodes[node] ?? GROUND));
}
