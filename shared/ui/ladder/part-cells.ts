import { type Cell, flat, GAP } from './box.ts';
import { nodeName } from './circuit-edges.ts';
import type { DrawingContext, PartLead } from './drawing-context.ts';
import type { PlacedText } from './ladder-layout.ts';
import type { PartNet } from './net.ts';
import type { PartFace, SymbolSize } from './part-face.ts';
import { partName } from './part-words.ts';
import { LINE, TEXT, textWidth, wrapped } from './text-size.ts';

/** What each winding of a transformer drawn whole takes between their two lines, px. */
export const JOIN_HALF = 29;

/** A plain wire between two points needs no more than to be seen, px. */
const PLAIN_WIRE = 14;

/** A part on its rung, with the ends of its leads where those are lifted or asked about. */
export function partCells(net: PartNet, context: DrawingContext): readonly Cell[] {
  const shown = context.leadsOf(net.edge).filter(({ name }) => isOff(name, context) || context.state.asked?.leads?.includes(name));
  const before = shown.find(({ on }) => on === nodeName(net.from));
  const after = shown.find((lead) => lead.on === nodeName(net.to) && lead !== before);
  const from = before && isOff(before.name, context) ? before.name : net.from;
  const to = after && isOff(after.name, context) ? after.name : net.to;
  return [
    ...(before ? [liftCell(before, net.edge.part, net.from, from, true, context)] : []),
    { box: partBox(net, from, to, context), from, to, edge: net.edge },
    ...(after ? [liftCell(after, net.edge.part, to, net.to, false, context)] : []),
  ];
}

const isOff = (lead: string, { state }: DrawingContext): boolean => state.lifted?.includes(lead) ?? false;

function partBox({ edge, from: start }: PartNet, from: string, to: string, context: DrawingContext) {
  const face = context.face(edge);
  const { size, shape } = face;
  const lines = face.plain ? [] : wrapped(face.name, TEXT.name, context.nameWidth);
  const below = face.below.flatMap(({ text, kind }) => wrapped(text, TEXT.small, context.nameWidth).map((line) => ({ text: line, kind })));
  const widest = Math.max(0, ...lines.map((line) => textWidth(line, TEXT.name)), ...below.map(({ text }) => textWidth(text, TEXT.small)));
  const width = face.plain ? PLAIN_WIRE : even(Math.max(size.width + 12, widest + 2 * GAP.beside));
  const normally = context.normally(edge);
  const pad = Math.max(0, context.roomAfter(edge) - width / 2);
  return flat({
    width: width + pad,
    up: face.plain ? 2 : size.up + (lines.length > 0 ? GAP.label + lines.length * LINE.height : 0),
    down: size.down + (below.length > 0 ? GAP.label + below.length * LINE.height : 0),
    stance: face.stance,
    under: below.length > 0 || face.join === 'below',
    place(sheet, { x, right, y }) {
      // A wire is its whole line; any other symbol stands in the middle of its own.
      const span = shape === 'wire' ? right - x : size.width;
      const middle = Math.round((x + right - pad) / 2);
      const [begin, end] = shape === 'wire' ? [x, right] : [middle - span / 2, middle + span / 2];
      sheet.line(from, x, y, begin, y);
      sheet.line(to, end, y, right, y);
      const ports = [
        { node: from, x: begin, y },
        { node: to, x: end, y },
      ] as const;
      const [first, second] = ports;
      sheet.symbols.push({
        part: edge.part,
        name: partName(edge.part, edge.spec),
        piece: edge.piece,
        shape,
        x: middle,
        y,
        width: span,
        ports: start === edge.from ? [first, second] : [second, first],
        ...(normally && { normally }),
      });
      if (face.join)
        sheet.reserved.push({ x: middle - span / 2 - 6, y: face.join === 'below' ? y : y - JOIN_HALF, width: span + 12, height: JOIN_HALF });
      sheet.texts.push(...textsAround(edge.part, face.size, lines, below, middle, y));
    },
  });
}

function textsAround(
  part: string,
  { up, down }: SymbolSize,
  name: readonly string[],
  said: PartFace['below'],
  x: number,
  y: number,
): readonly PlacedText[] {
  const above = name.map((text, i): PlacedText => {
    const baseline = y - up - GAP.label - LINE.below - (name.length - 1 - i) * LINE.height;
    return { text, kind: 'name', x, y: baseline, anchor: 'middle', size: TEXT.name, of: part };
  });
  const below = said.map(({ text, kind }, i): PlacedText => {
    return { text, kind, x, y: y + down + GAP.label + LINE.above + i * LINE.height, anchor: 'middle', size: TEXT.small, of: part };
  });
  return [...above, ...below];
}

/** A lead's end: off its terminal with a gap and a loose end that can be measured, or still on it and named. `opens` to the right of its node. */
function liftCell(lead: PartLead, part: string, from: string, to: string, opens: boolean, context: DrawingContext): Cell {
  const off = isOff(lead.name, context);
  const word = off && !stands(lead.name, context) ? 'lifted' : '';
  const least = context.pick || stands(lead.name, context) ? 64 : 44;
  const width = even(Math.max(least, textWidth(lead.name, TEXT.name) + 2 * GAP.beside, textWidth(word, TEXT.small) + 2 * GAP.beside));
  const lanes = off ? context.jumperEnds(lead.name) : 0;
  const box = flat({
    width,
    up: 26 + LINE.height + lanes * GAP.lane,
    down: off && stands(lead.name, context) ? 40 : 8 + LINE.height,
    lanes,
    under: true,
    place(sheet, { x, right, y, row }) {
      const middle = Math.round((x + right) / 2);
      const [near, far] = opens ? [middle - 10, middle + 6] : [middle + 10, middle - 6];
      if (off) {
        sheet.line(from, x, y, Math.min(near, far), y);
        sheet.line(to, Math.max(near, far), y, right, y);
        sheet.points.push({ node: lead.name, x: far, y, role: 'loose-end', ladder: sheet.ladder, row: row ?? { left: x, right, top: y } });
      } else sheet.line(from, x, y, right, y);
      sheet.lifts.push({ lead: lead.name, part, off, from: near, to: far, y });
      sheet.texts.push({ text: lead.name, kind: 'flag', x: middle, y: y - 24 - LINE.below, anchor: 'middle', size: TEXT.name, of: lead.name });
      const under = y + 6 + LINE.above;
      if (word) sheet.texts.push({ text: word, kind: 'lifted', x: middle, y: under, anchor: 'middle', size: TEXT.small, of: lead.name });
    },
  });
  return { box, from, to };
}

const stands = (node: string, { leads }: DrawingContext): boolean => leads?.red === node || leads?.black === node;

const even = (length: number): number => 2 * Math.ceil(length / 2);
