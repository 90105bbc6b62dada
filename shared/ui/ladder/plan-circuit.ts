import type { Bench } from '../../../engine/bench/index.ts';
import { blocksOf } from './blocks-of.ts';
import { chooseRails } from './choose-rails.ts';
import { circuitEdges, type Edge, isSupply } from './circuit-edges.ts';
import type { CircuitPlan, LadderPlan, LoosePiece } from './ladder-plan.ts';
import { nodesIn } from './net.ts';
import { orderLadders } from './order-ladders.ts';
import { type Stub, seriesParallel } from './series-parallel.ts';
import { StubPlanner } from './stub-planner.ts';

/**
 * Splits a bench into ladders. Each set of loops that hang together, and each supply with nothing across it, is one; a part on no loop hangs
 * as a stub from the ladder that it ends on, the one further from the line where there are two.
 */
export function planCircuit(bench: Bench): CircuitPlan {
  const { edges, endless } = circuitEdges(bench);
  const terminals = new Set(bench.terminals);
  const blocks = blocksOf(edges);
  const isLadder = (block: readonly Edge[]): boolean => block.length > 1 || block.some(isSupply);
  const made = blocks.filter(isLadder).flatMap((block) => {
    const ladder = planLadder(block, terminals);
    return ladder ? [ladder] : [];
  });
  const ordered = orderLadders(made.map(({ plan }) => plan));

  const onLadder = new Set(ordered.flatMap(({ nodes }) => [...nodes]));
  const bridges = blocks.filter((block) => !isLadder(block)).flat();
  const onOneNode = edges.filter(({ from, to }) => from === to);
  const planner = new StubPlanner(bridges, onOneNode, onLadder);
  const hung = ordered
    .toReversed()
    .map((plan) => {
      const stubs = new Map(made.find((one) => one.plan === plan)?.stubs);
      for (const node of plan.nodes) planner.hang(node, stubs);
      return { ...plan, stubs, nodes: new Set([...plan.nodes, ...pointsOn(stubs)]) };
    })
    .toReversed();

  const loose: LoosePiece[] = [];
  for (let node = planner.nextStart(); node !== undefined; node = planner.nextStart()) {
    const stubs = new Map<string, readonly Stub[]>();
    planner.hang(node, stubs);
    loose.push({ node, stubs });
  }
  const drawn = new Set([...hung.flatMap(({ nodes }) => [...nodes]), ...loose.flatMap(({ node, stubs }) => [node, ...pointsOn(stubs)])]);
  const alone = bench.terminals.filter((terminal) => !drawn.has(terminal) && !planner.groundDrawn(terminal));
  return { ladders: hung, loose: [...loose, ...alone.map((node) => ({ node, stubs: new Map() }))], endless };
}

function planLadder(
  block: readonly Edge[],
  terminals: ReadonlySet<string>,
): { readonly plan: LadderPlan; readonly stubs: Map<string, Stub[]> } | undefined {
  const { left, right, supply } = chooseRails(block, terminals);
  const read = seriesParallel(block, left, right, supply);
  if (!read) return undefined;
  const stubs = new Map<string, Stub[]>();
  for (const { net, end } of read.stubs) stubs.set(net.from, [...(stubs.get(net.from) ?? []), { net, end }]);
  const nodes = new Set([left, right, ...nodesIn(read.net), ...pointsOn(stubs)]);
  return { plan: { left, right, supply, net: read.net, stubs, nodes }, stubs };
}

/** The nodes that stubs draw points for. */
function pointsOn(stubs: ReadonlyMap<string, readonly Stub[]>): readonly string[] {
  return [...stubs.values()].flat().flatMap(({ net, end }) => [...nodesIn(net), ...(end.kind === 'point' ? [end.node] : [])]);
}
