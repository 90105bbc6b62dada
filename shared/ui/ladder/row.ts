import { type Cell, flat, GAP, type Spot } from './box.ts';
import type { Sheet } from './sheet.ts';

/** Cells side by side on one line. `pin`: a cell whose middle must stand at `x`. */
export type Row = { readonly cells: readonly Cell[]; readonly width: number; readonly up: number; readonly down: number; readonly lanes: number };
export type Pin = { readonly cell: Cell; readonly x: number };

export function rowOf(tight: readonly Cell[]): Row {
  const cells = withRoomUnderHeads(tight);
  const boxes = cells.map(({ box }) => box);
  const lanes = boxes.reduce((sum, box) => sum + box.lanes, 0);
  return {
    cells,
    width: boxes.reduce((sum, box) => sum + box.width, 0),
    // Lanes lie above the labels of the whole row, not only above those of their own point.
    up: Math.max(0, ...boxes.map((box) => box.up - box.lanes * GAP.lane)) + lanes * GAP.lane,
    down: Math.max(0, ...boxes.map((box) => box.down)),
    lanes,
  };
}

/** A plate at a rail's head reaches under what follows; line is put in where something else is there already. */
function withRoomUnderHeads(cells: readonly Cell[]): readonly Cell[] {
  const [first] = cells;
  const last = cells.at(-1);
  const before = first ? wanting(first.box.overhang, cells.slice(1)) : 0;
  const after = last ? wanting(last.box.overhang, cells.slice(0, -1).reverse()) : 0;
  if (before + after === 0 || !first || !last) return cells;
  return [first, ...(before > 0 ? [spacer(first.to, before)] : []), ...cells.slice(1, -1), ...(after > 0 ? [spacer(last.from, after)] : []), last];
}

function wanting(overhang: number, beside: readonly Cell[]): number {
  let free = 0;
  for (const { box } of beside) {
    if (free >= overhang || box.under || box.overhang > 0) break;
    free += box.width;
  }
  return Math.max(0, overhang - free);
}

/** Nothing but line. */
function spacer(node: string, width: number): Cell {
  return { box: flat({ width, up: 0, down: 0, place: (sheet, { x, right, y }) => sheet.line(node, x, y, right, y) }), from: node, to: node };
}

/** Sets a row from `x` to `right`. What is left over goes where a rung has it: before its load, around its supply, inside a block. */
export function placeRow(row: Row, sheet: Sheet, spot: Spot, pin?: Pin): void {
  const { cells } = row;
  const span = spot.row ?? { left: spot.x, right: spot.right, top: spot.y - row.up };
  if (row.lanes > 0) sheet.reserved.push({ x: spot.x, y: span.top, width: spot.right - spot.x, height: row.lanes * GAP.lane });
  const slack = cells.at(-1)?.box.isEnd ? 0 : Math.max(0, spot.right - spot.x - row.width);
  const { first, last, before, inside } = sharedOut(row, slack, spot.x, pin);
  let x = spot.x;
  const pass = (node: string, length: number): void => {
    sheet.line(node, x, spot.y, x + length, spot.y);
    x += length;
  };
  cells.forEach((cell, i) => {
    if (i === first) pass(cell.from, before);
    const right = x + cell.box.width + (i === first ? inside : 0);
    cell.box.place(sheet, { x, right, y: spot.y, row: span });
    x = right;
    if (i === last) pass(cell.to, slack - before - inside);
  });
}

/** px put in before cell `first`, into it, and the rest after cell `last`. */
type Share = { readonly first: number; readonly last: number; readonly before: number; readonly inside: number };

function sharedOut({ cells }: Row, slack: number, x: number, pin: Pin | undefined): Share {
  const pinned = pin ? cells.indexOf(pin.cell) : -1;
  if (pin && pinned >= 0) {
    const start = cells.slice(0, pinned).reduce((sum, { box }) => sum + box.width, x);
    const before = pin.x - (start + (cells[pinned]?.box.width ?? 0) / 2);
    return { first: pinned, last: pinned, before: Math.min(Math.max(0, Math.round(before)), slack), inside: 0 };
  }
  const at = (stance: Cell['box']['stance']): number => cells.findIndex(({ box }) => box.stance === stance);
  const block = at('block');
  if (block >= 0) return { first: block, last: block, before: 0, inside: slack };
  const supply = at('supply');
  if (supply >= 0)
    return { first: supply, last: cells.findLastIndex(({ box }) => box.stance === 'supply'), before: Math.floor(slack / 2), inside: 0 };
  const load = at('load');
  // The long wire out to the load takes the room, so that the load's own terminals stay beside it.
  const wire = cells.slice(0, load < 0 ? cells.length : load).findLastIndex(({ box }) => box.stance === 'wire');
  if (wire >= 0) return { first: wire, last: wire, before: 0, inside: slack };
  if (load >= 0) return { first: load, last: load, before: slack, inside: 0 };
  return { first: cells.length - 1, last: cells.length - 1, before: 0, inside: 0 };
}
