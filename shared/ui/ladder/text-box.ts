import type { PlacedText } from './ladder-layout.ts';
import { LINE, textWidth } from './text-size.ts';

export type Rect = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

/** The room that a text takes, without its plate, px. */
export function textBox({ text, x, y, anchor, size }: PlacedText): Rect {
  const width = textWidth(text, size);
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
  return { x: left, y: y - LINE.above, width, height: LINE.above + LINE.below };
}

/** The plate around a text, px. */
export function plateOf(text: PlacedText): Rect {
  const { x, y, width, height } = textBox(text);
  const pad = text.pad ?? 0;
  return { x: x - pad, y: y - pad / 3, width: width + 2 * pad, height: height + (2 * pad) / 3 };
}
