import { nodeName } from '../circuit-edges.ts';
import type { LadderLayout, Line, PlacedSymbol } from '../ladder-layout.ts';

type Spot = { readonly x: number; readonly y: number };

/** The circuit as a reader of the drawing finds it: for each symbol's two ends, which net it is on. Nets are numbers. */
export type DrawnEnd = { readonly part: string; readonly piece: PlacedSymbol['piece']; readonly nets: readonly [number, number] };

/**
 * Follows the drawing: lines that touch are one net, and so are places that carry the same name. Only geometry and printed names are used, not the
 * nodes that the layout remembers for its lines.
 */
export function drawnNets(layout: LadderLayout): { readonly ends: readonly DrawnEnd[]; readonly named: ReadonlyMap<string, number> } {
  const { lines, symbols, points, flags, grounds, texts } = layout;
  const parent: number[] = [];
  const add = (): number => parent.push(parent.length) - 1;
  const find = (a: number): number => {
    let at = a;
    while (parent[at] !== at) at = parent[at] ?? at;
    return at;
  };
  const join = (a: number, b: number): void => {
    parent[find(a)] = find(b);
  };

  const wires = lines.map((line) => ({ line, id: add() }));
  for (const one of wires) {
    for (const other of wires) if (one.id < other.id && touch(one.line, other.line)) join(one.id, other.id);
  }
  const spots: { readonly at: Spot; readonly id: number }[] = [];
  const at = (spot: Spot): number => {
    const id = add();
    for (const { line, id: wire } of wires) if (isOn(spot, line)) join(id, wire);
    for (const other of spots) if (other.at.x === spot.x && other.at.y === spot.y) join(id, other.id);
    spots.push({ at: spot, id });
    return id;
  };
  const ends = symbols.map(({ part, piece, ports }) => ({ part, piece, ids: [at(ports[0]), at(ports[1])] as const }));

  const printed = new Set(texts.filter(({ kind }) => kind === 'node' || kind === 'inner-node' || kind === 'flag').map(({ of }) => of));
  const names = new Map<string, number>();
  const name = (text: string, id: number): void => {
    const known = names.get(text);
    if (known === undefined) names.set(text, id);
    else join(known, id);
  };
  for (const { node, x, y, role } of points) if (role !== 'hidden' && printed.has(node)) name(node, at({ x, y }));
  for (const { node, x, y, width, points: way } of flags) name(node, at({ x: way === 'right' ? x : x + width, y }));
  for (const { node, x, y } of grounds) name(nodeName(node), at({ x, y }));
  return {
    ends: ends.map(({ part, piece, ids: [a, b] }) => ({ part, piece, nets: [find(a), find(b)] })),
    named: new Map([...names].map(([text, id]) => [text, find(id)])),
  };
}

/** A meeting is an end of one on the other; lines that only cross are not joined. */
const touch = (a: Line, b: Line): boolean => endsOf(a).some((end) => isOn(end, b)) || endsOf(b).some((end) => isOn(end, a));

const endsOf = ({ x1, y1, x2, y2 }: Line): readonly Spot[] => [
  { x: x1, y: y1 },
  { x: x2, y: y2 },
];

function isOn({ x, y }: Spot, { x1, y1, x2, y2 }: Line): boolean {
  const within = (value: number, a: number, b: number): boolean => value >= Math.min(a, b) && value <= Math.max(a, b);
  return within(x, x1, x2) && within(y, y1, y2);
}

/** Lines that cross in their middles. */
export function crossings({ lines }: LadderLayout): readonly (readonly [Line, Line])[] {
  const strictly = (value: number, a: number, b: number): boolean => value > Math.min(a, b) && value < Math.max(a, b);
  return lines.flatMap((level) =>
    lines.flatMap((upright) =>
      level.y1 === level.y2 && upright.x1 === upright.x2 && strictly(upright.x1, level.x1, level.x2) && strictly(level.y1, upright.y1, upright.y2)
        ? [[level, upright] as const]
        : [],
    ),
  );
}
