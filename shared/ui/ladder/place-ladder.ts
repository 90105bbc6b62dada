import type { Edge } from './circuit-edges.ts';
import type { PlacedText } from './ladder-layout.ts';
import type { LadderRow, TierRows } from './ladder-rows.ts';
import { clearance, highest, lowered, lowest, obstacles } from './obstacles.ts';
import { partName } from './part-words.ts';
import { BOND } from './point-box.ts';
import { Sheet } from './sheet.ts';
import { plateOf, type Rect } from './text-box.ts';
import { LINE, TEXT } from './text-size.ts';

/** Where the rails stand. */
export type Stand = { readonly x: number; readonly right: number };

/** Between the lowest of one row and what is right below it, px. */
const CLEAR = 8;

/** How far each rail has been drawn. */
type Reach = { left: number; right: number };

/**
 * Sets a ladder's rows as close under each other as what stands on them allows, the first `gap` px clear of what is above, and the rails beside
 * them. Returns the room that all of it takes.
 */
export function placeLadder(tiers: readonly TierRows[], sheet: Sheet, stand: Stand, above: readonly Rect[], gap: number): readonly Rect[] {
  const taken: Rect[] = [];
  let reach: Reach | undefined;
  for (const { tier, rows, bonds, more } of tiers) {
    let heads: Reach | undefined;
    const tails: Reach = { left: 0, right: 0 };
    for (const row of rows) {
      const line =
        reach || heads
          ? dropRow(row, sheet, stand, taken, CLEAR, Math.max(tails.left, tails.right, reach?.left ?? 0, reach?.right ?? 0))
          : dropRow(row, sheet, stand, above, gap, 0);
      taken.push(...line.rects);
      const exit = line.y + row.box.exit;
      heads ??= { left: line.y, right: exit };
      if (row.reaches !== 'right') tails.left = line.y;
      if (row.reaches !== 'left') tails.right = exit;
    }
    if (!heads) continue;
    for (const side of ['left', 'right'] as const) {
      const at = side === 'left' ? stand.x : stand.right;
      const node = tier[side];
      const feed = side === 'left' ? tier.leftFeed : tier.rightFeed;
      if (reach && feed) wireDown(feed, node, sheet, at, reach[side], heads[side]);
      else if (reach) sheet.line(node, at, reach[side], at, heads[side]);
      sheet.line(node, at, heads[side], at, tails[side]);
      const top = reach ? reach[side] : heads[side];
      taken.push({ x: at - 1, y: top, width: 2, height: tails[side] - top });
      const bond = bonds[side];
      if (!bond) continue;
      const far = side === 'left' ? at - BOND : at + BOND;
      const ports = [
        { node, x: at, y: heads[side] },
        { node: bond.node, x: far, y: heads[side] },
      ] as const;
      pushWire(bond.edge, sheet, ports, node);
      sheet.grounds.push({ node: bond.node, x: far, y: heads[side] });
      taken.push({ x: far - 8, y: heads[side], width: 16, height: 20 });
    }
    reach = tails;
    if (more > 0) sayMore(more, sheet, Math.round((stand.x + stand.right) / 2), taken);
  }
  return taken;
}

/** Tries a row at 0 to see what it takes, then sets it where that is clear, and its line below the lines before it. */
function dropRow(row: LadderRow, sheet: Sheet, stand: Stand, above: readonly Rect[], gap: number, after: number) {
  const tried = new Sheet();
  setRow(row, tried, stand, 0);
  const rects = obstacles(tried);
  const free = clearance(above, rects, gap);
  const y = Math.round(Math.max(Number.isFinite(free) ? free : 0, after, -highest(rects)));
  setRow(row, sheet, stand, y);
  return { y, rects: lowered(rects, y) };
}

function setRow({ box, reaches }: LadderRow, sheet: Sheet, { x, right }: Stand, y: number): void {
  const spot = { y };
  if (reaches === 'both') box.place(sheet, { ...spot, x, right });
  else if (reaches === 'left') box.place(sheet, { ...spot, x, right: x + box.width });
  else box.place(sheet, { ...spot, x: right - box.width, right });
}

function wireDown(edge: Edge, lower: string, sheet: Sheet, x: number, from: number, to: number): void {
  const upper = edge.from === lower ? edge.to : edge.from;
  const ports = [
    { node: upper, x, y: from },
    { node: lower, x, y: to },
  ] as const;
  pushWire(edge, sheet, ports, upper);
}

type End = { readonly node: string; readonly x: number; readonly y: number };

function pushWire({ part, spec, piece, from }: Edge, sheet: Sheet, [a, b]: readonly [End, End], first: string): void {
  const [x, y] = [Math.round((a.x + b.x) / 2), Math.round((a.y + b.y) / 2)];
  sheet.symbols.push({
    part,
    name: partName(part, spec),
    piece,
    shape: 'wire',
    x,
    y,
    width: Math.abs(b.x - a.x),
    ports: from === first ? [a, b] : [b, a],
  });
}

function sayMore(count: number, sheet: Sheet, x: number, taken: Rect[]): void {
  const y = Math.round(lowest(taken)) + 6 + LINE.above;
  const text = count === 1 ? '1 more rung' : `${count} more rungs`;
  const placed: PlacedText = { text, kind: 'more', x, y, anchor: 'middle', size: TEXT.small, of: '' };
  sheet.texts.push(placed);
  taken.push(plateOf(placed));
}

/** Sets a piece that is on no rails. */
export function placeLoose(
  rows: readonly LadderRow[],
  node: string,
  sheet: Sheet,
  stand: Stand,
  above: readonly Rect[],
  gap: number,
): readonly Rect[] {
  const taken: Rect[] = [];
  let first: number | undefined;
  let last = 0;
  for (const row of rows) {
    const { y, rects } = dropRow(row, sheet, stand, first === undefined ? above : taken, first === undefined ? gap : CLEAR, last);
    taken.push(...rects);
    first ??= y;
    last = y;
  }
  if (first !== undefined) sheet.line(node, stand.x, first, stand.x, last);
  return taken;
}
