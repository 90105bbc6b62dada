import { type Bench, GROUND } from '../../../engine/bench/index.ts';
import { type Edge, nodeName } from './circuit-edges.ts';
import { type DrawingContext, drawingContext, type SharedContext } from './drawing-context.ts';
import { type Focus, focusOn } from './focus.ts';
import type { CircuitPlan, LadderPlan, LoosePiece } from './ladder-plan.ts';
import { type LadderRow, ladderRows, looseRows, type TierRows } from './ladder-rows.ts';
import type { LayoutOptions } from './layout-ladder.ts';
import { edgesIn } from './net.ts';
import type { Join } from './part-face.ts';
import { CHANNEL } from './place-jumpers.ts';
import { BOND } from './point-box.ts';
import { roomForSecondary, type TransformerJoin } from './transformer-joins.ts';

/** Every row made and not yet placed, and where the rails will stand. */
export type LadderBuild = {
  readonly ladders: readonly { readonly plan: LadderPlan; readonly tiers: readonly TierRows[] }[];
  readonly loose: readonly { readonly piece: LoosePiece; readonly rows: readonly LadderRow[] }[];
  readonly joins: readonly TransformerJoin[];
  readonly width: number;
  readonly left: number;
  readonly right: number;
  readonly leftOut: readonly string[];
};

/** Below this, px, names break early: a phone. */
const NARROW = 560;
/** Rails stand further apart than their longest rung asks for, up to this, px. */
const SPREAD = 460;
const MARGIN = 10;

/** Makes the rows of a bench, folded where they have to be. `channels`: jumpers that pass outside the rails. */
export function buildLadders(
  bench: Bench,
  plan: CircuitPlan,
  options: LayoutOptions,
  possible: readonly TransformerJoin[],
  channels: number,
): LadderBuild {
  const { width = 720, state = {}, leads, pick = false } = options;
  const leadsOf = drawingContext(bench, plan, { state, leads, pick, nameWidth: 0, joins: new Map() }).leadsOf;
  const focus = focusOn(options.focus, leadsOf);
  const isSeen = (ladder: LadderPlan): boolean => [...ladder.nodes].some(focus.hasNode) || focus.hasPiece(ladder.net, ladder.stubs);
  const seen = plan.ladders.filter(isSeen);
  const joins = possible.filter(({ above, below }) => seen.includes(above) && seen.includes(below));
  const windings = joins.flatMap(({ primary, secondary }): [Edge, Join][] => [
    [primary, 'below'],
    [secondary, 'above'],
  ]);
  const context = drawingContext(bench, plan, { state, leads, pick, nameWidth: width < NARROW ? 76 : 128, joins: new Map(windings) });

  const loosePieces = plan.loose.filter(
    (piece) => focus.hasNode(piece.node) || [...piece.stubs.values()].flat().some((stub) => focus.hasStub(stub, piece.stubs)),
  );
  const build = (most: number) => buildAt(most, seen, loosePieces, context, focus, joins);
  const natural = build(Number.POSITIVE_INFINITY);
  const lanes = channels * CHANNEL;
  const bonded = (side: 'left' | 'right'): number => {
    const tiers = natural.ladders.flatMap((ladder) => ladder.tiers);
    const grounded = tiers.some(({ tier, bonds }) => bonds[side] || nodeName(tier[side]) === GROUND);
    return grounded || (side === 'left' && loosePieces.some(({ node }) => nodeName(node) === GROUND)) ? BOND + 6 : 0;
  };
  const left = MARGIN + lanes + bonded('left');
  const margins = left + MARGIN + lanes + bonded('right');
  const most = width - margins;
  const made = natural.widest <= most ? natural : build(most);
  const spread = Math.max(made.widest, Math.min(most, Math.max(natural.widest, SPREAD)));
  const drawn = new Set([...seen, ...loosePieces]);
  const unseen = [...plan.ladders, ...plan.loose].filter((piece) => !drawn.has(piece)).flatMap(edgesOf);
  const leftOut = new Set([...made.ladders.flatMap(({ tiers }) => tiers.flatMap((tier) => tier.leftOut)), ...unseen].map(({ part }) => part));
  return { ...made, joins, width: spread + margins, left, right: left + spread, leftOut: [...leftOut] };
}

function buildAt(
  most: number,
  seen: readonly LadderPlan[],
  pieces: readonly LoosePiece[],
  shared: SharedContext,
  focus: Focus,
  joins: readonly TransformerJoin[],
) {
  const room = new Map<Edge, number>();
  const contextOf = ({ stubs }: LadderPlan | LoosePiece): DrawingContext => ({
    ...shared,
    stubs,
    roomAfter: (edge) => room.get(edge) ?? 0,
    unfolded: new Map(),
  });
  // From the foot up: how far in a primary stands depends on the row of its secondary.
  const ladders = seen
    .toReversed()
    .map((plan) => {
      const last = joins.find(({ above }) => above === plan)?.primary;
      const tiers = ladderRows(plan, contextOf(plan), most, focus, last);
      const join = joins.find(({ below }) => below === plan);
      if (join) room.set(join.primary, roomForSecondary(tiers, join.secondary));
      return { plan, tiers };
    })
    .toReversed();
  const loose = pieces.map((piece) => ({ piece, rows: looseRows(piece, contextOf(piece), most) }));
  const rows = [...ladders.flatMap(({ tiers }) => tiers.flatMap((tier) => tier.rows)), ...loose.flatMap((piece) => piece.rows)];
  return { ladders, loose, widest: Math.max(0, ...rows.map(({ box }) => box.width)) };
}

function edgesOf(piece: LadderPlan | LoosePiece): readonly Edge[] {
  return [...('net' in piece ? edgesIn(piece.net) : []), ...[...piece.stubs.values()].flat().flatMap(({ net }) => edgesIn(net))];
}
