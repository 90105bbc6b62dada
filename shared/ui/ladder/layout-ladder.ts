import type { Bench } from '../../../engine/bench/index.ts';
import { buildLadders, type LadderBuild } from './ladder-build.ts';
import type { LadderLayout, Undrawn } from './ladder-layout.ts';
import type { LadderState, MeterLeads } from './ladder-state.ts';
import { lowest } from './obstacles.ts';
import { jumpersOutside, placeJumpers } from './place-jumpers.ts';
import { placeLadder, placeLoose } from './place-ladder.ts';
import { placeProbes } from './place-probes.ts';
import { planCircuit } from './plan-circuit.ts';
import { Sheet } from './sheet.ts';
import type { Rect } from './text-box.ts';
import { joinWindings, pinSecondary, possibleJoins, type TransformerJoin } from './transformer-joins.ts';

export type LayoutOptions = {
  /** px that there are. The drawing is wider only where a single part is. */
  readonly width?: number;
  readonly state?: LadderState;
  readonly leads?: MeterLeads | undefined;
  /** Points are a fingertip apart, for touching. */
  readonly pick?: boolean;
  /** Nodes or leads that matter now: what lies about them is drawn, the rest is only counted. */
  readonly focus?: readonly string[] | undefined;
};

/** Room between two ladders, px. */
const BETWEEN = 22;
const CLOSE = 14;
const MARGIN = 6;

/**
 * Places a bench as ladders: sections under each other from the line down, rails hot on the left, rungs between them. No coordinate comes
 * from the bench. Equal input gives an equal drawing.
 */
export function layoutLadder(bench: Bench, options: LayoutOptions = {}): LadderLayout {
  const plan = planCircuit(bench);
  let joins = possibleJoins(plan.ladders);
  let channels = 0;
  for (;;) {
    const build = buildLadders(bench, plan, options, joins, channels);
    const { sheet, height, failed } = placed(build);
    const outside = jumpersOutside(sheet, options.state?.jumpers ?? []);
    if (failed.length > 0 || outside > channels) {
      // Drawn again: with those windings apart, each under its own name, and with room beside the rails.
      joins = joins.filter((join) => !failed.includes(join));
      channels = Math.max(channels, outside);
      continue;
    }
    const probes = options.leads ? placeProbes(sheet, options.leads) : [];
    const jumpers = placeJumpers(sheet, options.state?.jumpers ?? [], build.width);
    const { lines, symbols, points, texts, flags, grounds, lifts } = sheet;
    const noEnds = plan.endless.map((part): Undrawn => ({ part, why: 'no-ends' }));
    const undrawn = [...noEnds, ...build.leftOut.map((part): Undrawn => ({ part, why: 'out-of-focus' }))];
    return { width: build.width, height, lines, symbols, points, texts, flags, grounds, lifts, probes, jumpers, undrawn };
  }
}

function placed({ ladders, loose, joins, left, right }: LadderBuild) {
  const sheet = new Sheet();
  const failed: TransformerJoin[] = [];
  const stand = { x: left, right };
  let above: readonly Rect[] = [{ x: 0, y: 0, width: 1e6, height: MARGIN }];
  ladders.forEach(({ plan, tiers }, i) => {
    sheet.ladder = i;
    const join = joins.find(({ below }) => below === plan);
    const primary = join && sheet.symbols.find(({ part, piece }) => part === join.primary.part && piece === 'primary');
    if (join && primary) pinSecondary(tiers, join.secondary, primary);
    // Under its transformer a ladder closes up to the one above; any other is set apart from all of it.
    const room = primary || i === 0 ? above : [beneath(above)];
    above = placeLadder(tiers, sheet, stand, room, primary ? CLOSE : i > 0 ? BETWEEN : 0);
    if (join && !joinWindings(sheet, join)) failed.push(join);
  });
  loose.forEach(({ piece, rows }, i) => {
    sheet.ladder = ladders.length + i;
    above = placeLoose(rows, piece.node, sheet, stand, [beneath(above)], i > 0 || ladders.length > 0 ? BETWEEN : 0);
  });
  return { sheet, failed, height: Math.ceil(lowest(above)) + MARGIN };
}

const beneath = (rects: readonly Rect[]): Rect => ({ x: 0, y: 0, width: 1e6, height: lowest(rects) });
