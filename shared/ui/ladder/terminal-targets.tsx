import { type KeyboardEvent, useRef } from 'react';
import type { PlacedPoint } from './ladder-layout.ts';

type TerminalTargetsProps = {
  readonly points: readonly PlacedPoint[];
  readonly onPick: (terminal: string) => void;
};

/** Half of a fingertip, px. */
const HALF = 22;

const STEPS: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** A target over each point that a lead can touch; arrow keys go to the next one that way, Enter and Space pick. */
export function TerminalTargets({ points, onPick }: TerminalTargetsProps) {
  const targets = points.filter(({ role }) => role === 'terminal' || role === 'loose-end');
  const group = useRef<SVGGElement>(null);
  const onKeyDown = (point: PlacedPoint) => (event: KeyboardEvent) => {
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      onPick(point.node);
      return;
    }
    const step = STEPS[event.key];
    const next = step && nextToward(point, targets, step);
    if (!next) return;
    event.preventDefault();
    const target = group.current?.children[targets.indexOf(next)];
    if (target instanceof SVGElement) target.focus();
  };
  return (
    <g ref={group}>
      {targets.map((point, i) => {
        const { node, x, y, role } = point;
        // The same terminal in a second place can be touched there and is not said twice.
        const again = targets.findIndex((other) => other.node === node) < i;
        return (
          // biome-ignore lint/a11y/useSemanticElements: an SVG has no button element.
          <rect
            key={`${node} ${x} ${y}`}
            className="ladder-target"
            role="button"
            tabIndex={again ? -1 : 0}
            aria-hidden={again || undefined}
            aria-label={role === 'loose-end' ? `loose end ${node}` : `terminal ${node}`}
            onClick={() => onPick(node)}
            onKeyDown={onKeyDown(point)}
            x={x - HALF}
            y={y - HALF}
            width={2 * HALF}
            height={2 * HALF}
            rx={4}
          />
        );
      })}
    </g>
  );
}

/** The nearest point in a direction; what lies aside counts three times as far. */
function nextToward(from: PlacedPoint, points: readonly PlacedPoint[], [dx, dy]: readonly [number, number]): PlacedPoint | undefined {
  const cost = ({ x, y }: PlacedPoint): number => {
    const along = (x - from.x) * dx + (y - from.y) * dy;
    const aside = Math.abs((x - from.x) * dy) + Math.abs((y - from.y) * dx);
    return along > 0 ? along + 3 * aside : Number.POSITIVE_INFINITY;
  };
  let best: PlacedPoint | undefined;
  for (const point of points) if (cost(point) < (best ? cost(best) : Number.POSITIVE_INFINITY)) best = point;
  return best;
}
