import type { Box, Cell } from './box.ts';
import { type Edge, isGroundSymbol } from './circuit-edges.ts';
import type { DrawingContext } from './drawing-context.ts';
import type { Focus } from './focus.ts';
import type { LadderPlan, LoosePiece, StubsByNode } from './ladder-plan.ts';
import { type Tier, tiersOf } from './ladder-tiers.ts';
import { edgesIn, type Net, nodesIn, turned } from './net.ts';
import { endCell } from './node-box.ts';
import { pointBox } from './point-box.ts';
import { type Rung, seriesBox } from './series-box.ts';
import type { Stub } from './series-parallel.ts';

/** One row or more on a ladder; it reaches both rails, or hangs from one. */
export type LadderRow = { readonly rung: Rung; readonly box: Box; readonly reaches: 'both' | 'left' | 'right' };

/** A rail's wire to ground, drawn at the head of the rail. */
export type Bond = { readonly edge: Edge; readonly node: string };

export type TierRows = {
  readonly tier: Tier;
  readonly rows: readonly LadderRow[];
  readonly bonds: Partial<Readonly<Record<'left' | 'right', Bond>>>;
  /** Parts of rungs that the focus leaves out, and how many rungs those are. */
  readonly leftOut: readonly Edge[];
  readonly more: number;
};

/** The rows of a ladder at most `most` px wide. `last` is drawn at its foot. */
export function ladderRows(plan: LadderPlan, context: DrawingContext, most: number, focus: Focus, last: Edge | undefined): readonly TierRows[] {
  const tiers = tiersOf(plan, (edge) => context.face(edge).plain && context.leadsOf(edge).length === 0, last);
  const holds = (tier: Tier): boolean =>
    focus.hasNode(tier.left) || focus.hasNode(tier.right) || tier.rungs.some((rung) => focus.hasPiece(rung, plan.stubs));
  const deepest = tiers.findLastIndex(holds);
  return tiers.flatMap((tier, i) => {
    if (i > deepest && i > 0) return [];
    const made = tierRows(tier, i, plan, context, most, focus, last);
    const beyond = i === deepest ? tiers.slice(i + 1) : [];
    const unseen = beyond.flatMap((lower) => [
      ...lower.rungs.flatMap((rung) => withStubs(rung, plan.stubs)),
      ...(lower.leftFeed ? [lower.leftFeed, ...hungFrom(lower.left, plan.stubs)] : []),
      ...(lower.rightFeed ? [lower.rightFeed, ...hungFrom(lower.right, plan.stubs)] : []),
    ]);
    return [{ ...made, leftOut: [...made.leftOut, ...unseen], more: made.more + beyond.reduce((sum, { rungs }) => sum + rungs.length, 0) }];
  });
}

/** A rung's parts and those of what hangs from it between the rails. */
const withStubs = (rung: Net, stubs: StubsByNode): readonly Edge[] => [...edgesIn(rung), ...nodesIn(rung).flatMap((node) => hungFrom(node, stubs))];

/** Parts of what hangs from a node, and of what hangs from that. */
function hungFrom(node: string, stubs: StubsByNode): readonly Edge[] {
  return (stubs.get(node) ?? []).flatMap(({ net, end }) => [...withStubs(net, stubs), ...(end.kind === 'point' ? hungFrom(end.node, stubs) : [])]);
}

function tierRows(
  tier: Tier,
  index: number,
  plan: LadderPlan,
  context: DrawingContext,
  most: number,
  focus: Focus,
  last: Edge | undefined,
): TierRows {
  const must = (rung: Net): boolean => edgesIn(rung).some((edge) => edge === plan.supply || edge === last) || focus.hasPiece(rung, plan.stubs);
  const kept = tier.rungs.filter(must);
  const rungs = kept.length > 0 ? kept : tier.rungs.slice(0, 1);
  const heads = {
    left: index === 0 || tier.leftFeed ? tier.left : undefined,
    right: index === 0 || tier.rightFeed ? tier.right : undefined,
  };
  const head = (corner: 'left' | 'right'): readonly Cell[] => {
    const node = heads[corner];
    return node === undefined ? [] : [{ box: pointBox(node, context, { corner, passing: index > 0 }), from: node, to: node }];
  };
  const drawn = rungs.map((net, i): LadderRow => {
    const rung = seriesBox(net, most, context, i === 0 ? { before: head('left'), after: head('right') } : {});
    return { rung, box: rung.box, reaches: 'both' };
  });
  const bonds: { left?: Bond; right?: Bond } = {};
  const hanging: LadderRow[] = [];
  const leftOut = tier.rungs.filter((rung) => !rungs.includes(rung)).flatMap((rung) => withStubs(rung, plan.stubs));
  let more = tier.rungs.length - rungs.length;
  for (const side of ['left', 'right'] as const) {
    const node = heads[side];
    for (const stub of (node !== undefined && context.stubs.get(node)) || []) {
      const bond = bondOf(stub, context);
      if (bond && !bonds[side]) bonds[side] = bond;
      else if (focus.hasStub(stub, plan.stubs)) hanging.push(stubRow(stub, side, most, context));
      else {
        leftOut.push(...edgesIn(stub.net));
        more += 1;
      }
    }
  }
  // What hangs from a rail comes before the rung that a transformer joins to the next ladder.
  const atFoot = last && drawn.length > 1 && rungs.slice(-1).flatMap(edgesIn).includes(last) ? drawn.slice(-1) : [];
  const rows = [...drawn.slice(0, drawn.length - atFoot.length), ...hanging, ...atFoot];
  return { tier, rows, bonds, leftOut, more };
}

function bondOf({ net, end }: Stub, context: DrawingContext): Bond | undefined {
  if (net.kind !== 'part' || end.kind !== 'ground' || !isGroundSymbol(end.node) || context.labelled('ground')) return undefined;
  return context.face(net.edge).plain ? { edge: net.edge, node: end.node } : undefined;
}

function stubRow({ net, end }: Stub, side: 'left' | 'right', most: number, context: DrawingContext): LadderRow {
  const rung =
    side === 'left'
      ? seriesBox(net, most, context, { after: [endCell(end, 'right', context)] })
      : seriesBox(turned(net), most, context, { before: [endCell(end, 'left', context)] });
  return { rung, box: rung.box, reaches: side };
}

/** A piece on no rails: its first stub goes on from its own point, the others hang below. */
export function looseRows({ node, stubs }: LoosePiece, context: DrawingContext, most: number): readonly LadderRow[] {
  const corner = { box: pointBox(node, context, { corner: 'left' }), from: node, to: node };
  const rows = (stubs.get(node) ?? []).map(({ net, end }, i): LadderRow => {
    const rung = seriesBox(net, most, context, { before: i === 0 ? [corner] : [], after: [endCell(end, 'right', context)] });
    return { rung, box: rung.box, reaches: 'left' };
  });
  if (rows.length > 0) return rows;
  const alone = { box: pointBox(node, context, { corner: 'left', stops: 'right' }), pin: () => undefined, rows: [] };
  return [{ rung: alone, box: alone.box, reaches: 'left' }];
}
