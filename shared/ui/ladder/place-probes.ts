import type { PlacedPoint, PlacedProbe } from './ladder-layout.ts';
import type { MeterLeads } from './ladder-state.ts';
import { PLATE, plateMiddle } from './point-box.ts';
import type { Sheet } from './sheet.ts';
import { TEXT } from './text-size.ts';

/** Stands the meter's leads on their points; a node with several points takes the one in the other lead's ladder, else the nearest to it. */
export function placeProbes(sheet: Sheet, { red, black }: MeterLeads): readonly PlacedProbe[] {
  const [reds, blacks] = [pointsOf(sheet, red), pointsOf(sheet, black)];
  const pairs = reds.flatMap((one) => blacks.map((other) => ({ one, other, far: distance(one, other) })));
  const best = pairs.reduce<(typeof pairs)[number] | undefined>((near, pair) => (near && near.far <= pair.far ? near : pair), undefined);
  const redAt = best?.one ?? reds[0];
  const blackAt = best?.other ?? blacks[0];
  return [...(redAt ? [probe(sheet, 'red', redAt, 0)] : []), ...(blackAt ? [probe(sheet, 'black', blackAt, blackAt === redAt ? 1 : 0)] : [])];
}

const pointsOf = ({ points }: Sheet, node: string): readonly PlacedPoint[] => points.filter((point) => point.node === node);

const distance = (a: PlacedPoint, b: PlacedPoint): number => (a.ladder === b.ladder ? 0 : 1e6) + Math.abs(a.x - b.x) + Math.abs(a.y - b.y);

function probe(sheet: Sheet, color: 'red' | 'black', { node, x, y, corner }: PlacedPoint, place: number): PlacedProbe {
  const plateX = plateMiddle(x, corner);
  const plateY = y + PLATE.below + place * PLATE.height + PLATE.height / 2;
  const text = color === 'red' ? 'RED' : 'BLK';
  sheet.texts.push({ text, kind: `lead-${color}`, x: plateX, y: plateY + 4, anchor: 'middle', size: TEXT.small, pad: 3, of: node });
  return { color, node, x, y, plateX, plateY };
}
