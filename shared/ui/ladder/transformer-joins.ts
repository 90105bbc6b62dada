import type { Edge } from './circuit-edges.ts';
import type { PlacedSymbol } from './ladder-layout.ts';
import type { CircuitPlan, LadderPlan } from './ladder-plan.ts';
import type { TierRows } from './ladder-rows.ts';
import { edgesIn } from './net.ts';
import { JOIN_HALF } from './part-cells.ts';
import type { Sheet } from './sheet.ts';

/** A transformer drawn whole: its primary at the foot of one ladder, its secondary at the head of the next. */
export type TransformerJoin = { readonly above: LadderPlan; readonly below: LadderPlan; readonly primary: Edge; readonly secondary: Edge };

/** The transformers that could be drawn whole, as each lies between a ladder and the next. */
export function possibleJoins(ladders: CircuitPlan['ladders']): readonly TransformerJoin[] {
  return ladders.flatMap((below, i) => {
    const above = ladders[i - 1];
    const secondary = below.supply;
    const primary = above && edgesIn(above.net).find(({ part, piece }) => piece === 'primary' && part === secondary?.part);
    return above && secondary?.piece === 'secondary' && primary ? [{ above, below, primary, secondary }] : [];
  });
}

/** px from the middle of a secondary to the end of its row: so far in must its primary stand to be above it. */
export function roomForSecondary(tiers: readonly TierRows[], secondary: Edge): number {
  const row = tiers[0]?.rows[0]?.rung.rows[0];
  const at = row?.cells.findIndex(({ edge }) => edge === secondary) ?? -1;
  const own = row?.cells[at]?.box.width ?? 0;
  return row && at >= 0 ? row.cells.slice(at + 1).reduce((sum, { box }) => sum + box.width, own / 2) : 0;
}

/** Before the lower ladder is placed: has its secondary stand right below the primary. */
export function pinSecondary(tiers: readonly TierRows[], secondary: Edge, primary: PlacedSymbol): void {
  const rung = tiers[0]?.rows[0]?.rung;
  const cell = rung?.rows[0]?.cells.find(({ edge }) => edge === secondary);
  if (rung && cell) rung.pin({ cell, x: primary.x });
}

/** Puts the two windings on one core; false where something is in between or they do not stand under each other. */
export function joinWindings(sheet: Sheet, { primary, secondary }: TransformerJoin): boolean {
  const find = (edge: Edge): number => sheet.symbols.findIndex(({ part, piece }) => part === edge.part && piece === edge.piece);
  const [p, s] = [find(primary), find(secondary)];
  const [upper, lower] = [sheet.symbols[p], sheet.symbols[s]];
  if (!upper || !lower || upper.x !== lower.x || lower.y - upper.y < 2 * JOIN_HALF) return false;
  const [left, right] = [upper.x - upper.width / 2 - 4, upper.x + upper.width / 2 + 4];
  const between = (y: number): boolean => y > upper.y && y < lower.y;
  const crossed =
    sheet.lines.some(
      ({ x1, x2, y1, y2 }) => Math.max(x1, x2) > left && Math.min(x1, x2) < right && (between(y1) || between(y2) || y1 <= upper.y !== y2 <= upper.y),
    ) || sheet.symbols.some(({ x, y, width }) => between(y) && x + width / 2 > left && x - width / 2 < right);
  if (crossed) return false;
  const core = upper.y + JOIN_HALF;
  sheet.symbols[p] = { ...upper, core };
  sheet.symbols[s] = { ...lower, core };
  return true;
}
