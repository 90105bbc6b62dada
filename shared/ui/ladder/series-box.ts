import { type Box, type Cell, GAP } from './box.ts';
import type { DrawingContext } from './drawing-context.ts';
import { itemsOf, type Net, type ParallelNet } from './net.ts';
import { nodeBox } from './node-box.ts';
import { parallelBox } from './parallel-box.ts';
import { partCells } from './part-cells.ts';
import { type Pin, placeRow, type Row, rowOf } from './row.ts';

/** What stands at the ends of a row of parts: rail heads, tags, points. */
export type RowEnds = { readonly before?: readonly Cell[]; readonly after?: readonly Cell[] };

/** Cells that are not parted when a rung is folded, or a block that can be made to fit. */
type Unit = { readonly cells: readonly Cell[] } | { readonly block: ParallelNet; readonly after: readonly Cell[] };

/** A rung: its rows, and whether it had to be folded to fit. */
export type Rung = { readonly box: Box; readonly rows: readonly Row[]; readonly pin: (pin: Pin) => void };

/**
 * Parts in series on as many rows as `most` px ask for. A folded rung is read like text: at the end of a row its line drops and goes
 * back to the left, so that hot is always to the left of common.
 */
export function seriesBox(net: Net, most: number, context: DrawingContext, ends: RowEnds = {}, depth = 0): Rung {
  const rows = rowsOf(unitsOf(net, ends, context), most, context, depth).map(rowOf);
  const offsets: number[] = [];
  rows.forEach((row, i) => {
    const above = rows[i - 1];
    offsets.push(above ? (offsets[i - 1] ?? 0) + above.down + GAP.fold + row.up : 0);
  });
  const last = rows.length - 1;
  const exit = offsets[last] ?? 0;
  const [first] = rows;
  let pinned: Pin | undefined;
  const pin = (at: Pin): void => {
    pinned = at;
  };
  const box: Box = {
    width: Math.max(...rows.map((row, i) => row.width + (i > 0 ? GAP.fold : 0) + (i < last ? GAP.fold : 0))),
    up: first?.up ?? 0,
    down: exit + (rows[last]?.down ?? 0),
    exit,
    lanes: first?.lanes ?? 0,
    stance: 'pass',
    under: true,
    isEnd: false,
    overhang: 0,
    place(sheet, spot) {
      rows.forEach((row, i) => {
        const y = spot.y + (offsets[i] ?? 0);
        const x = spot.x + (i > 0 ? GAP.fold : 0);
        const right = i < last ? x + row.width : spot.right;
        placeRow(row, sheet, { x, right, y, ...(i === 0 && spot.row && { row: spot.row }) }, pinned);
        const next = rows[i + 1];
        const node = next?.cells[0]?.from;
        if (!next || node === undefined) return;
        const back = y + row.down + GAP.fold / 2;
        const down = spot.y + (offsets[i + 1] ?? 0);
        sheet.line(node, right, y, right, back);
        sheet.line(node, right, back, spot.x + GAP.fold, back);
        sheet.line(node, spot.x + GAP.fold, back, spot.x + GAP.fold, down);
      });
    },
  };
  return { box, rows, pin };
}

function unitsOf(net: Net, { before: head = [], after: foot = [] }: RowEnds, context: DrawingContext): readonly Unit[] {
  const nodes = net.kind === 'series' ? net.nodes : [];
  const items = itemsOf(net);
  const units = items.flatMap((item, i): readonly Unit[] => {
    const lead = i === 0 ? head : [];
    const node = nodes[i];
    const tail = [...(node === undefined ? [] : [nodeBox(node, context)]), ...(i === items.length - 1 ? foot : [])];
    if (item.kind === 'part') return [{ cells: [...lead, ...partCells(item, context), ...tail] }];
    if (item.kind === 'series') return [];
    return [...(lead.length > 0 ? [{ cells: lead }] : []), { block: item, after: tail }];
  });
  // A row of nothing but the last piece of wire would be a row for nothing.
  const [last, before] = [units.at(-1), units.at(-2)];
  const end = items.at(-1);
  if (!last || !before || !('cells' in last) || !('cells' in before) || end?.kind !== 'part' || !context.face(end.edge).plain) return units;
  return [...units.slice(0, -2), { cells: [...before.cells, ...last.cells] }];
}

/** A block beside other parts is let be until it is this much lower than on a row of its own, px. */
const WORTH_A_ROW = 50;

const MOST_TRIED = 3;

const widthOf = (cells: readonly Cell[]): number => cells.reduce((sum, { box }) => sum + box.width, 0);

function rowsOf(units: readonly Unit[], most: number, context: DrawingContext, depth: number): readonly (readonly Cell[])[] {
  const natural = units.map((unit) =>
    'cells' in unit ? unit.cells : [blockCell(unit.block, Number.POSITIVE_INFINITY, context, depth), ...unit.after],
  );
  if (widthOf(natural.flat()) <= most) return [natural.flat()];
  const rows: Cell[][] = [[]];
  const room = (): number => most - GAP.fold * (rows.length > 1 ? 2 : 1) - widthOf(rows.at(-1) ?? []);
  for (const [i, unit] of units.entries()) {
    const cells = natural[i] ?? [];
    // The last row ends at the rail and needs no room to turn back.
    const rest = natural.slice(i).flat();
    if (rows.length > 1 && widthOf(rest) <= room() + GAP.fold) {
      rows.at(-1)?.push(...rest);
      return rows;
    }
    const isEmpty = rows.at(-1)?.length === 0;
    if (widthOf(cells) <= room()) rows.at(-1)?.push(...cells);
    else if ('cells' in unit) {
      if (isEmpty) rows.at(-1)?.push(...cells);
      else rows.push([...cells]);
    } else {
      const after = widthOf(unit.after);
      // Beside what stands there already, unless it is much lower on a row of its own.
      const onOwnRow = (): Cell => blockCell(unit.block, most - 2 * GAP.fold - after, context, depth + 1);
      // Trying both at every depth would double the work with each.
      const here = !isEmpty && depth > MOST_TRIED ? undefined : blockCell(unit.block, room() - after, context, depth + 1);
      const own = isEmpty && here ? here : onOwnRow();
      const stays = here && (isEmpty || (here.box.width + after <= room() && here.box.down - own.box.down <= WORTH_A_ROW));
      if (stays) rows.at(-1)?.push(here, ...unit.after);
      else rows.push([own, ...unit.after]);
    }
  }
  return rows;
}

function blockCell(net: ParallelNet, most: number, context: DrawingContext, depth: number): Cell {
  // Unfolded, a block is the same at every depth, and each of them asks for it.
  const known = most === Number.POSITIVE_INFINITY ? context.unfolded.get(net) : undefined;
  const box = known ?? parallelBox(net, most, context, depth);
  if (most === Number.POSITIVE_INFINITY) context.unfolded.set(net, box);
  return { box, from: net.from, to: net.to };
}
