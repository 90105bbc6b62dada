import type { PlacedText } from './ladder-layout.ts';
import { marks, meet } from './obstacles.ts';
import type { Sheet } from './sheet.ts';
import { plateOf } from './text-box.ts';
import { TEXT, textWidth } from './text-size.ts';

type At = readonly [x: number, y: number];

/** The name lies on a level piece, the longest first, or beside one, where it covers nothing that is to be read. */
export function nameJumper(sheet: Sheet, way: readonly At[], ends: readonly At[], text: string, of: string, width: number): void {
  const half = textWidth(text, TEXT.small) / 2;
  const levels = way
    .slice(1)
    .flatMap((end, i) => {
      const start = way[i];
      return start && start[1] === end[1] ? [{ from: Math.min(start[0], end[0]), to: Math.max(start[0], end[0]), y: end[1] }] : [];
    })
    .toSorted((a, b) => b.to - b.from - (a.to - a.from));
  const all = marks(sheet);
  const names = sheet.texts.map(plateOf);
  let best: { readonly x: number; readonly y: number; readonly covered: number } | undefined;
  const places = [
    ...levels.flatMap(({ from, to, y }) => spread(from + half + 12, to - half - 12).map((x) => ({ x, y }))),
    ...levels.flatMap(({ from, to, y }) => [
      { x: Math.ceil(to + half + 8), y },
      { x: Math.floor(from - half - 8), y },
    ]),
    ...ends.flatMap(([x, y]) => [
      { x: Math.ceil(x + half + 10), y },
      { x: Math.floor(x - half - 10), y },
    ]),
    ...uprights(way).flatMap(({ x, from, to }) =>
      spread(from + 12, to - 12).flatMap((y) => [
        { x: Math.floor(x - half - 8), y },
        { x: Math.ceil(x + half + 8), y },
      ]),
    ),
  ];
  for (const { x, y } of places) {
    if (x - half - 3 < 0 || x + half + 3 > width) continue;
    const plate = plateOf(jumperText(text, x, y, of));
    const covered = all.filter((rect) => meet(rect, plate)).length + 100 * names.filter((rect) => meet(rect, plate)).length;
    if (!best || covered < best.covered) best = { x, y, covered };
    if (covered === 0) break;
  }
  if (best) sheet.texts.push(jumperText(text, best.x, best.y, of));
}

function uprights(way: readonly At[]): readonly { readonly x: number; readonly from: number; readonly to: number }[] {
  return way.slice(1).flatMap((end, i) => {
    const start = way[i];
    return start && start[0] === end[0] ? [{ x: end[0], from: Math.min(start[1], end[1]), to: Math.max(start[1], end[1]) }] : [];
  });
}

const jumperText = (text: string, x: number, y: number, of: string): PlacedText => ({
  text,
  kind: 'jumper',
  x,
  y: y + 4,
  anchor: 'middle',
  size: TEXT.small,
  pad: 3,
  of,
});

/** Whole numbers between two, from the middle outward. */
function spread(from: number, to: number): readonly number[] {
  if (to < from) return [];
  const middle = Math.round((from + to) / 2);
  const steps = Math.floor((to - from) / 2 / STEP);
  return [middle, ...Array.from({ length: steps }, (_, i) => [middle - (i + 1) * STEP, middle + (i + 1) * STEP]).flat()];
}

const STEP = 4;
