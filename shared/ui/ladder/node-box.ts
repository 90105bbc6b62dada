import { type Cell, flat, GAP } from './box.ts';
import type { DrawingContext } from './drawing-context.ts';
import { flagBox, groundBox } from './end-boxes.ts';
import { pointBox } from './point-box.ts';
import { seriesBox } from './series-box.ts';
import type { StubEnd } from './series-parallel.ts';

/** A stub may take this much of a row before it is folded, px. */
const STUB_WIDTH = 300;

/** A node between two parts: its point, and under it whatever hangs from the node. */
export function nodeBox(node: string, context: DrawingContext, stops?: 'left' | 'right'): Cell {
  const hung = context.stubs.get(node) ?? [];
  const point = pointBox(node, context, stops && (hung.length === 0 || stops === 'left') ? { stops } : {});
  const stubs = hung.map(({ net, end }) => seriesBox(net, STUB_WIDTH, context, { after: [endCell(end, 'right', context)] }).box);
  if (stubs.length === 0) return { box: point, from: node, to: node };
  const tees: number[] = [];
  let depth = point.down;
  for (const stub of stubs) {
    tees.push(depth + GAP.rung + stub.up);
    depth += GAP.rung + stub.up + stub.down;
  }
  const box = flat({
    ...point,
    under: true,
    isEnd: stops === 'right',
    width: point.width + Math.max(...stubs.map(({ width }) => width)) + GAP.beside,
    down: depth,
    place(sheet, { x, right, y, row }) {
      const tee = x + point.width;
      point.place(sheet, { x, right: tee, y, ...(row && { row }) });
      if (stops !== 'right') sheet.line(node, tee, y, right, y);
      sheet.line(node, tee, y, tee, y + (tees.at(-1) ?? 0));
      stubs.forEach((stub, i) => {
        const line = y + (tees[i] ?? 0);
        stub.place(sheet, { x: tee, right: tee + stub.width, y: line });
      });
    },
  });
  return { box, from: node, to: node };
}

/** How a stub stops, set at its far end: `points` is the way that end lies. */
export function endCell({ kind, node }: StubEnd, points: 'left' | 'right', context: DrawingContext): Cell {
  const box = (): Cell['box'] => {
    if (kind === 'elsewhere') return flagBox(node, points);
    if (kind === 'ground') return groundBox(node, points, context);
    return nodeBox(node, context, points).box;
  };
  return { box: box(), from: node, to: node };
}
