import { GROUND } from '../../../engine/bench/index.ts';
import { type Box, flat, GAP } from './box.ts';
import { nodeName } from './circuit-edges.ts';
import type { DrawingContext } from './drawing-context.ts';
import { LINE, TEXT, textWidth } from './text-size.ts';

/** The plate that says which lead stands there, px; `below` is from the line to its top. */
export const PLATE = { width: 34, height: 17, below: 18, aside: 8 } as const;

/** The middle of the plate for a point: below it, or inside the rail that it is the head of. */
export const plateMiddle = (x: number, corner: 'left' | 'right' | undefined): number =>
  corner === 'left' ? x + PLATE.aside + PLATE.width / 2 : corner === 'right' ? x - PLATE.aside - PLATE.width / 2 : x;

/** How far a rail's bond to ground lies outside it, px. */
export const BOND = 12;

/** Half of what a fingertip needs, px. */
const FINGER = 22;

/** `corner`: the head of a rail, at that edge of the box; `passing`: the rail also comes from above; `stops`: no line on that side. */
export type PointPlace = { readonly corner?: 'left' | 'right'; readonly passing?: boolean; readonly stops?: 'left' | 'right' };

/** A node's point with its name above. What hangs from the node is not part of it. */
export function pointBox(node: string, context: DrawingContext, { corner, passing = false, stops }: PointPlace = {}): Box {
  const name = nodeName(node);
  const terminal = context.terminals.has(name);
  const labelled = context.labelled(name);
  const grounded = name === GROUND;
  const leads = [context.leads?.red, context.leads?.black].filter((lead) => lead === name).length;
  const lanes = context.jumperEnds(name);
  const label = labelled ? textWidth(name, TEXT.name) : 0;
  // What rises from the point itself, a jumper or a rail, has the name beside it.
  const aside = lanes > 0 || passing;
  const [least, reach] = [context.pick && terminal ? FINGER : labelled ? 9 : 4, leads > 0 ? PLATE.width / 2 + 3 : 0];
  const plain = Math.max(least, reach);
  const half = Math.ceil(Math.max(plain, label / 2 + GAP.beside));
  const beside = label + 2 * GAP.beside;
  const [before, after] = halves();

  function halves(): readonly [number, number] {
    const cornerSide = Math.max(context.pick ? FINGER : 10, aside ? beside + 2 : label + GAP.beside);
    if (corner === 'left') return [0, cornerSide];
    if (corner === 'right') return [cornerSide, 0];
    return aside ? [Math.max(plain, beside), plain] : [half, half];
  }

  return flat({
    width: before + after,
    up: (labelled ? 8 + LINE.height : 4) + lanes * GAP.lane,
    down: Math.max(leads > 0 ? PLATE.below + PLATE.height * leads + 2 : context.pick && terminal ? FINGER : 6, grounded ? 20 : 0),
    lanes,
    under: leads > 0 || grounded,
    isEnd: stops === 'right',
    overhang: leads > 0 && corner ? Math.max(0, PLATE.aside + PLATE.width + 4 - before - after) : 0,
    place(sheet, { x, right, y, row = { left: x, right, top: y } }) {
      const at = corner === 'right' ? right : x + before;
      if (stops !== 'left') sheet.line(node, x, y, at, y);
      if (stops !== 'right') sheet.line(node, at, y, right, y);
      const role = terminal ? 'terminal' : labelled ? 'inner' : 'hidden';
      sheet.points.push({ node: name, x: at, y, role, ladder: sheet.ladder, row, ...(corner && { corner }) });
      if (leads > 0)
        sheet.reserved.push({ x: plateMiddle(at, corner) - PLATE.width / 2, y: y + PLATE.below, width: PLATE.width, height: PLATE.height * leads });
      if (context.pick && terminal) sheet.reserved.push({ x: at - FINGER, y: y - FINGER, width: 2 * FINGER, height: 2 * FINGER });
      if (grounded) {
        const far = corner === 'left' ? at - BOND : corner === 'right' ? at + BOND : at;
        sheet.line(node, at, y, far, y);
        sheet.grounds.push({ node, x: far, y });
      }
      if (!labelled) return;
      const anchor = corner === 'left' ? 'start' : corner === 'right' ? 'end' : aside ? 'end' : 'middle';
      const shift = corner === 'left' ? (aside ? 7 : -4) : corner === 'right' ? (aside ? -7 : 4) : aside ? -GAP.beside : 0;
      const kind = terminal ? 'node' : 'inner-node';
      sheet.texts.push({ text: name, kind, x: at + shift, y: y - 6 - LINE.below, anchor, size: TEXT.name, of: name });
    },
  });
}
