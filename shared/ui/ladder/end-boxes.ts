import { type Box, flat } from './box.ts';
import { nodeName } from './circuit-edges.ts';
import type { DrawingContext } from './drawing-context.ts';
import { pointBox } from './point-box.ts';
import { LINE, TEXT, textWidth } from './text-size.ts';

/** Half the height of a tag, px. */
export const FLAG_HALF = 9;

/** A tag with the name of the point, drawn elsewhere, that this is. */
export function flagBox(node: string, points: 'left' | 'right'): Box {
  const width = textWidth(node, TEXT.name) + 22;
  return flat({
    width: width + 6,
    isEnd: points === 'right',
    up: FLAG_HALF + 1,
    down: FLAG_HALF + 1,
    place(sheet, { x, right, y }) {
      const from = points === 'right' ? x + 6 : right - 6 - width;
      sheet.line(node, points === 'right' ? x : from + width, y, points === 'right' ? from : right, y);
      sheet.flags.push({ node, x: from, y, width, points });
      const middle = from + width / 2 + (points === 'right' ? -3 : 3);
      sheet.texts.push({ text: node, kind: 'node', x: middle, y: y + 4, anchor: 'middle', size: TEXT.name, of: node });
    },
  });
}

/** A ground symbol at the end of a line; named and touchable where ground is one of the bench's terminals. */
export function groundBox(node: string, points: 'left' | 'right', context: DrawingContext): Box {
  if (context.terminals.has(nodeName(node))) return pointBox(node, context, { stops: points });
  return flat({
    width: 24,
    isEnd: points === 'right',
    up: LINE.below,
    down: 20,
    place(sheet, { x, right, y }) {
      const at = points === 'right' ? x + 12 : right - 12;
      sheet.line(node, points === 'right' ? x : at, y, points === 'right' ? at : right, y);
      sheet.grounds.push({ node, x: at, y });
    },
  });
}
