import type { Edge, EdgeProps } from '@xyflow/react';
import { memo } from 'react';
import type { GraphPoint } from './lay-out.ts';

export type WireEdge = Edge<{ readonly points: readonly GraphPoint[]; readonly isShown: boolean }, 'wire'>;

const ROUND = 5;

/** A line of straight pieces with its corners taken off, as a drawn wire has them. */
export function wirePath(points: readonly GraphPoint[]): string {
  const [first, ...rest] = points;
  if (!first) return '';
  const pieces = rest.map((point, at) => {
    const next = rest[at + 1];
    const before = at === 0 ? first : rest[at - 1];
    if (!next || !before) return `L${point.x} ${point.y}`;
    const into = towards(point, before);
    const out = towards(point, next);
    return `L${into.x} ${into.y}Q${point.x} ${point.y} ${out.x} ${out.y}`;
  });
  return `M${first.x} ${first.y}${pieces.join('')}`;
}

/** A place on the way from a corner, short of half way. */
function towards(corner: GraphPoint, other: GraphPoint): GraphPoint {
  const length = Math.hypot(other.x - corner.x, other.y - corner.y);
  const part = length === 0 ? 0 : Math.min(ROUND, length / 2) / length;
  return { x: corner.x + (other.x - corner.x) * part, y: corner.y + (other.y - corner.y) * part };
}

export const WireLine = memo(function WireLine({ data }: EdgeProps<WireEdge>) {
  if (!data) return null;
  const end = data.points.at(-1);
  return (
    <g className="wire" data-shown={data.isShown || undefined}>
      <path d={wirePath(data.points)} fill="none" />
      {end && <path className="wire-end" d={`M${end.x - 6} ${end.y - 3.5}L${end.x} ${end.y}L${end.x - 6} ${end.y + 3.5}`} fill="none" />}
    </g>
  );
});
