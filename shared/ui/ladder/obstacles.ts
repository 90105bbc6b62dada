import { FLAG_HALF } from './end-boxes.ts';
import { SYMBOL_SIZES } from './part-face.ts';
import type { Sheet } from './sheet.ts';
import { plateOf, type Rect } from './text-box.ts';

/** What a line keeps clear above and below it, so that a name is not read with the line it does not belong to, px. */
const CLEAR = 10;

/** Everything on a sheet as the rectangles that nothing else may lie in. */
export function obstacles(sheet: Sheet): readonly Rect[] {
  const lines = sheet.lines.map(({ x1, y1, x2, y2 }) => between(x1, y1, x2, y2, y1 === y2 ? CLEAR : 2));
  return [...lines, ...marks(sheet), ...sheet.reserved];
}

/** All that is drawn besides lines. */
export function marks({ symbols, points, texts, flags, grounds, lifts }: Sheet): readonly Rect[] {
  return [
    ...symbols.flatMap(({ shape, x, y, width, core }) => {
      const { up, down } = SYMBOL_SIZES[shape];
      if (shape === 'wire') return [];
      return core === undefined
        ? [{ x: x - width / 2, y: y - up, width, height: up + down }]
        : [{ x: x - width / 2, y: Math.min(y, core), width, height: Math.abs(core - y) }];
    }),
    ...points.filter(({ role }) => role !== 'hidden').map(({ x, y }) => ({ x: x - 5, y: y - 5, width: 10, height: 10 })),
    ...texts.map(plateOf),
    ...flags.map(({ x, y, width }) => ({ x, y: y - FLAG_HALF, width, height: 2 * FLAG_HALF })),
    ...grounds.map(({ x, y }) => ({ x: x - 8, y, width: 16, height: 18 })),
    ...lifts.map(({ from, to, y }) => ({ x: Math.min(from, to) - 14, y: y - 20, width: Math.abs(from - to) + 28, height: 28 })),
  ];
}

function between(x1: number, y1: number, x2: number, y2: number, clear: number): Rect {
  return { x: Math.min(x1, x2), y: Math.min(y1, y2) - clear, width: Math.abs(x2 - x1), height: Math.abs(y2 - y1) + 2 * clear };
}

/** Whether two rectangles share any area. */
export const meet = (a: Rect, b: Rect): boolean => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

export const lowered = (rects: readonly Rect[], by: number): readonly Rect[] => rects.map((rect) => ({ ...rect, y: rect.y + by }));

/** How far down things have to be moved to lie `gap` px clear of what is above them. */
export function clearance(above: readonly Rect[], below: readonly Rect[], gap: number): number {
  let by = Number.NEGATIVE_INFINITY;
  for (const one of above) {
    for (const other of below) {
      if (one.x >= other.x + other.width + gap || other.x >= one.x + one.width + gap) continue;
      by = Math.max(by, one.y + one.height + gap - other.y);
    }
  }
  return by;
}

export const lowest = (rects: readonly Rect[]): number => rects.reduce((low, { y, height }) => Math.max(low, y + height), Number.NEGATIVE_INFINITY);
export const highest = (rects: readonly Rect[]): number => rects.reduce((high, { y }) => Math.min(high, y), Number.POSITIVE_INFINITY);
