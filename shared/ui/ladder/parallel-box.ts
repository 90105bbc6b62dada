import { type Box, GAP } from './box.ts';
import type { DrawingContext } from './drawing-context.ts';
import type { ParallelNet } from './net.ts';
import { seriesBox } from './series-box.ts';

/** Branches under each other between two uprights. The first is on the line that the block stands in. */
export function parallelBox(net: ParallelNet, most: number, context: DrawingContext, depth: number): Box {
  const branches = net.branches.map((branch) => seriesBox(branch, most, context, {}, depth).box);
  const offsets: number[] = [];
  branches.forEach((branch, i) => {
    const above = branches[i - 1];
    offsets.push(above ? (offsets[i - 1] ?? 0) + above.down + GAP.rung + branch.up : 0);
  });
  const [first] = branches;
  const last = branches.length - 1;
  return {
    width: Math.max(...branches.map(({ width }) => width)),
    up: first?.up ?? 0,
    down: (offsets[last] ?? 0) + (branches[last]?.down ?? 0),
    exit: 0,
    lanes: first?.lanes ?? 0,
    stance: 'block',
    under: true,
    isEnd: false,
    overhang: 0,
    place(sheet, spot) {
      const { x, right, y } = spot;
      branches.forEach((branch, i) => {
        const line = y + (offsets[i] ?? 0);
        branch.place(sheet, { x, right, y: line, ...(i === 0 && spot.row && { row: spot.row }) });
      });
      sheet.line(net.from, x, y, x, y + (offsets[last] ?? 0));
      sheet.line(net.to, right, y, right, y + Math.max(...branches.map(({ exit }, i) => (offsets[i] ?? 0) + exit)));
    },
  };
}
