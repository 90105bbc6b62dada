import { GAP } from './box.ts';
import type { PlacedJumper, PlacedPoint, RowSpan } from './ladder-layout.ts';
import type { Jumper } from './ladder-state.ts';
import { nameJumper } from './name-jumper.ts';
import { marks, meet } from './obstacles.ts';
import type { Sheet } from './sheet.ts';
import type { Rect } from './text-box.ts';

type At = readonly [x: number, y: number];

/** What each way up or down outside the rails takes beside them, px. */
export const CHANNEL = 12;

/** How many jumpers go from row to row, and so pass outside the rails. */
export function jumpersOutside(sheet: Sheet, jumpers: readonly Jumper[]): number {
  return jumpers.filter(({ from, to }) => {
    const [one, other] = nearest(sheet, from, to);
    return one && other && one.row !== other.row;
  }).length;
}

/**
 * Leads jumpers over the labels of their rows: straight across where both ends are on one row, else out past a rail and back in. Every row has
 * kept a lane for each end that stands on it.
 */
export function placeJumpers(sheet: Sheet, jumpers: readonly Jumper[], width: number): readonly PlacedJumper[] {
  const taken = new Map<RowSpan, number>();
  const placed: PlacedJumper[] = [];
  let outside = 0;
  const laneOf = ({ row }: PlacedPoint): number => {
    const used = taken.get(row) ?? 0;
    taken.set(row, used + 1);
    return row.top + GAP.lane / 2 + used * GAP.lane;
  };
  for (const { from, to, name, planned = false } of jumpers) {
    const [one, other] = nearest(sheet, from, to);
    if (!one || !other || one === other) continue;
    const lanes = one.row === other.row ? [laneOf(one)] : [laneOf(one), laneOf(other)];
    const inset = 6 + outside * CHANNEL;
    if (one.row !== other.row) outside += 1;
    const way =
      one.row === other.row ? across(one, other, lanes[0] ?? one.y) : around(one, other, lanes, marks(sheet), { left: inset, right: width - inset });
    placed.push({ from, to, planned, way });
    const ends = lanes.map((y, i): At => [(i === 0 ? one : other).x, y]);
    nameJumper(sheet, way, ends, name ?? (planned ? 'jumper here' : 'jumper'), `${from} ${to}`, width);
  }
  return placed;
}

const across = (one: PlacedPoint, other: PlacedPoint, lane: number): readonly At[] => [
  [one.x, one.y],
  [one.x, lane],
  [other.x, lane],
  [other.x, other.y],
];

type Outside = { readonly left: number; readonly right: number };

/** Out of one row and into the other on the side where the least is in the way. */
function around(one: PlacedPoint, other: PlacedPoint, lanes: readonly number[], all: readonly Rect[], outside: Outside): readonly At[] {
  const ways = [outside.left, outside.right].map((x) => {
    const ends = [one, other].map((point, i) => wayOut(point, lanes[i] ?? point.y, x, all));
    const [a, b] = ends;
    const way = [...(a?.way ?? []), ...(b?.way ?? []).toReversed()];
    return { way, cost: ends.reduce((sum, { cost }) => sum + cost, 0) + Math.abs(one.x - x) + Math.abs(other.x - x) };
  });
  const [first, second] = ways;
  return (first && (!second || first.cost <= second.cost) ? first : second)?.way ?? [];
}

/** From a point out to `x`: straight from the head of the rail on that side, else over its row where nothing is in the way. */
function wayOut(point: PlacedPoint, lane: number, x: number, all: readonly Rect[]): { readonly way: readonly At[]; readonly cost: number } {
  const outward = x < point.x ? 'left' : 'right';
  const inWay = all.filter((rect) => !meet(rect, { x: point.x - 1, y: point.y - 1, width: 2, height: 2 }));
  const struck = (y: number): number => inWay.filter((rect) => isStruck(rect, point.x, x, y)).length;
  if (point.corner === outward && struck(point.y) === 0) {
    return {
      way: [
        [point.x, point.y],
        [x, point.y],
      ],
      cost: 0,
    };
  }
  const tries = [0, -4, 4, -8, -12, -16, -20, -24].map((by) => lane + by);
  const y = tries.reduce((best, one) => (struck(one) < struck(best) ? one : best), lane);
  return {
    way: [
      [point.x, point.y],
      [point.x, y],
      [x, y],
    ],
    cost: struck(y) * 1000,
  };
}

const isStruck = (rect: Rect, a: number, b: number, y: number): boolean =>
  y > rect.y - 2 && y < rect.y + rect.height + 2 && Math.max(a, b) > rect.x && Math.min(a, b) < rect.x + rect.width;

function nearest({ points }: Sheet, from: string, to: string): readonly [PlacedPoint | undefined, PlacedPoint | undefined] {
  const far = (a: PlacedPoint, b: PlacedPoint): number => (a.row === b.row ? 0 : 1e4) + Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
  let best: readonly [PlacedPoint, PlacedPoint] | undefined;
  for (const one of points.filter(({ node }) => node === from)) {
    for (const other of points.filter(({ node }) => node === to)) if (!best || far(one, other) < far(...best)) best = [one, other];
  }
  return best ?? [undefined, undefined];
}
