import { across, edgesByNode } from './blocks-of.ts';
import type { Edge } from './circuit-edges.ts';
import { edgesIn, inParallel, inSeries, type Net, partNet, readFrom } from './net.ts';

/** How a stub stops: at a point of its own, at a ground symbol, or at a point that is drawn elsewhere. */
export type StubEnd = { readonly kind: 'point' | 'ground' | 'elsewhere'; readonly node: string };

/** A piece of circuit that hangs from one node; its net is read from there. */
export type Stub = { readonly net: Net; readonly end: StubEnd };

export type Reduced = { readonly net: Net; readonly stubs: readonly Stub[] };

// Above this many pieces, trying each of them costs more than a better drawing is worth.
const MOST_TRIED = 14;

/**
 * Reads a block between two of its nodes as parts in series and in parallel (Duffin 1965: possible unless it holds a bridge). A piece that stands
 * in the way, the cross arm of a bridge, is taken out and hung on one of its nodes, to end at the name of the other.
 */
export function seriesParallel(edges: readonly Edge[], from: string, to: string, supply: Edge | undefined): Reduced | undefined {
  const stubs: Stub[] = [];
  let nets = reduced(edges.map(partNet), from, to);
  while (nets.length > 1) {
    const tip = looseTip(nets, from, to);
    const cut = tip ?? crossArm(nets, from, to, supply);
    if (!cut) return undefined;
    nets = reduced(
      nets.filter((net) => net !== cut.net),
      from,
      to,
    );
    stubs.push({ net: readFrom(cut.net, cut.at), end: { kind: tip ? 'point' : 'elsewhere', node: across(cut.net, cut.at) } });
  }
  const net = nets[0];
  return net && { net: readFrom(net, from), stubs };
}

/** Merges until nothing more merges. */
function reduced(start: readonly Net[], from: string, to: string): readonly Net[] {
  let nets = start;
  for (;;) {
    const merged = sideBySide(nets);
    const rowed = inARow(merged, from, to);
    if (rowed === merged && merged.length === nets.length) return nets;
    nets = rowed;
  }
}

function sideBySide(nets: readonly Net[]): readonly Net[] {
  const groups = new Map<string, Net[]>();
  for (const net of nets) {
    const key = net.from < net.to ? `${net.from} ${net.to}` : `${net.to} ${net.from}`;
    groups.set(key, [...(groups.get(key) ?? []), net]);
  }
  if (groups.size === nets.length) return nets;
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    return first && group.length > 1 ? [inParallel(group, first.from, first.to)] : group;
  });
}

function inARow(nets: readonly Net[], from: string, to: string): readonly Net[] {
  for (const [node, [first, second, third]] of edgesByNode(nets)) {
    if (node === from || node === to || !first || !second || third) continue;
    const row = inSeries(readFrom(first, across(first, node)), readFrom(second, node));
    // Back where it began: that is a loop on one node, which sideBySide makes a dead end of.
    if (row.from === row.to) continue;
    return inARow([...nets.filter((net) => net !== first && net !== second), row], from, to);
  }
  return nets;
}

type Cut = { readonly net: Net; readonly at: string };

/** A piece with nothing at its far end. */
function looseTip(nets: readonly Net[], from: string, to: string): Cut | undefined {
  for (const [node, [net, other]] of edgesByNode(nets)) {
    if (node !== from && node !== to && net && !other) return { net, at: across(net, node) };
  }
  return undefined;
}

/** The smallest piece whose going lets the rest reduce furthest and holds it together; the supply only where nothing else is left. */
function crossArm(nets: readonly Net[], from: string, to: string, supply: Edge | undefined): Cut | undefined {
  let best: { readonly net: Net; readonly cost: number } | undefined;
  for (const net of nets) {
    const parts = edgesIn(net);
    const rest = nets.filter((other) => other !== net);
    if (!holdsTogether(rest, nets)) continue;
    const left = nets.length <= MOST_TRIED ? reduced(rest, from, to).length : 0;
    // What lies between two rungs rather than on one is taken for the arm.
    const onRail = [net.from, net.to].some((node) => node === from || node === to);
    const cost = (supply && parts.includes(supply) ? 1e6 : 0) + left * 1000 + (onRail ? 10 : 0) + parts.length;
    if (!best || cost < best.cost) best = { net, cost };
  }
  if (!best) return undefined;
  const { net } = best;
  // Hung from a rail it becomes a rung like the others.
  return { net, at: net.to === from || net.to === to ? net.to : net.from };
}

function holdsTogether(rest: readonly Net[], all: readonly Net[]): boolean {
  const at = edgesByNode(rest);
  const nodes = edgesByNode(all).size;
  const [start] = at.keys();
  if (start === undefined) return false;
  const seen = new Set([start]);
  const todo = [start];
  for (let node = todo.pop(); node !== undefined; node = todo.pop()) {
    for (const net of at.get(node) ?? []) {
      const next = across(net, node);
      if (seen.has(next)) continue;
      seen.add(next);
      todo.push(next);
    }
  }
  return seen.size === nodes;
}
