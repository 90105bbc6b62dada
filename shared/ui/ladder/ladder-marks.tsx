import { FLAG_HALF } from './end-boxes.ts';
import type { PlacedFlag, PlacedGround, PlacedJumper, PlacedLift, PlacedProbe, PlacedText } from './ladder-layout.ts';
import { PLATE } from './point-box.ts';
import { plateOf } from './text-box.ts';

export function GroundMark({ ground: { x, y } }: { readonly ground: PlacedGround }) {
  return <path d={`M${x} ${y}V${y + 8}M${x - 8} ${y + 8}H${x + 8}M${x - 5} ${y + 12}H${x + 5}M${x - 2} ${y + 16}H${x + 2}`} />;
}

export function Flag({ flag: { x, y, width, points } }: { readonly flag: PlacedFlag }) {
  const [tail, tip, back] = points === 'right' ? [x, x + width, x + width - 8] : [x + width, x, x + 8];
  return <path className="ladder-flag" d={`M${tail} ${y - FLAG_HALF}H${back}L${tip} ${y}L${back} ${y + FLAG_HALF}H${tail}Z`} />;
}

/** A lead's pennant; off its terminal, the gap beside it and a loose end that swings up. */
export function Lift({ lift: { from, to, y, off } }: { readonly lift: PlacedLift }) {
  const pole = off ? to : Math.round((from + to) / 2);
  const away = to > from ? 1 : -1;
  return (
    <g className="ladder-lift">
      {off && <path d={`M${from} ${y - 7}V${y + 7}`} />}
      <path d={`M${pole} ${y - (off ? 4 : 0)}V${y - 20}`} />
      <path
        className="ladder-pennant"
        d={`M${pole} ${y - 20}H${pole + away * 12}L${pole + away * 8} ${y - 16}L${pole + away * 12} ${y - 12}H${pole}Z`}
      />
    </g>
  );
}

/** A meter lead: its tip on the terminal, its plate below; the red plate is round, the black one square. */
export function Probe({ probe: { color, x, y, plateX, plateY } }: { readonly probe: PlacedProbe }) {
  const top = plateY - PLATE.height / 2;
  return (
    <g className={`ladder-probe ladder-probe-${color}`}>
      <path d={`M${x} ${y + 5}L${plateX - 4} ${top + 1}H${plateX + 4}Z`} />
      <rect x={plateX - PLATE.width / 2} y={top} width={PLATE.width} height={PLATE.height - 1} rx={color === 'red' ? 8 : 0} />
    </g>
  );
}

const ROUND = 9;

/** A jumper with rounded corners and a clip at each end. */
export function JumperArch({ jumper: { way, planned } }: { readonly jumper: PlacedJumper }) {
  const d = roundedWay(fromRings(way));
  const ends = [way.slice(0, 2), way.slice(-2).reverse()];
  return (
    <g className={planned ? 'ladder-jumper ladder-jumper-planned' : 'ladder-jumper'}>
      <path className="ladder-jumper-halo" d={d} />
      <path d={d} />
      {ends.map(([end, next]) => end && next && <Clip key={end.join()} end={end} next={next} />)}
    </g>
  );
}

type At = readonly [x: number, y: number];

/** A jumper begins at the rim of its terminal, so that the ring is seen whole. */
function fromRings(way: PlacedJumper['way']): PlacedJumper['way'] {
  const off = (end: At, next: At | undefined): At =>
    next ? [end[0] + 5 * Math.sign(next[0] - end[0]), end[1] + 5 * Math.sign(next[1] - end[1])] : end;
  return way.map((at, i) => (i === 0 ? off(at, way[1]) : i === way.length - 1 ? off(at, way[i - 1]) : at));
}

/** Sits beside its terminal, so that the terminal is still seen. */
function Clip({ end: [x, y], next }: { readonly end: At; readonly next: At }) {
  const [dx, dy] = [Math.sign(next[0] - x), Math.sign(next[1] - y)];
  return <rect className="ladder-clip" x={x + dx * 9 - 4} y={y + dy * 9 - 4} width={8} height={8} rx={1} />;
}

function roundedWay(way: PlacedJumper['way']): string {
  return way
    .map(([x, y], i) => {
      const [before, after] = [way[i - 1], way[i + 1]];
      if (!before) return `M${x} ${y}`;
      if (!after) return `L${x} ${y}`;
      const reach = (to: readonly [number, number]): number => Math.min(ROUND, Math.floor((Math.abs(to[0] - x) + Math.abs(to[1] - y)) / 2));
      const toward = ([tx, ty]: readonly [number, number]): string => {
        const r = reach([tx, ty]);
        return `${x + Math.sign(tx - x) * r} ${y + Math.sign(ty - y) * r}`;
      };
      return `L${toward(before)}Q${x} ${y} ${toward(after)}`;
    })
    .join('');
}

/** One line of text, on its plate where it has one. Plates of meter leads are drawn with the lead. */
export function Label({ text }: { readonly text: PlacedText }) {
  const plate = text.kind === 'jumper' ? plateOf(text) : undefined;
  return (
    <>
      {plate && <rect className="ladder-plate" x={plate.x} y={plate.y} width={plate.width} height={plate.height} rx={3} />}
      <text className={`ladder-text ladder-text-${text.kind}`} x={text.x} y={text.y} textAnchor={text.anchor} fontSize={text.size}>
        {text.text}
      </text>
    </>
  );
}
