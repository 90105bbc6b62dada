import type { Prose } from '../../engine/tree/index.ts';
import { proseText } from '../../shared/ui/prose-text.ts';

// A sentence ends at a stop before a space and a capital, a digit or a quotation; not at “in. w.c.” and the like, where small letters go on.
const SENTENCE_END = /(?<=[.!?])\s+(?=[A-Z0-9“"(])/;

/** Shorter, it is “Never jumper it.” or “Replace nothing.”, and what is to be done comes after it. */
const LEAST = 50;

/** The first sentences of a repair, as many as fit into so many characters. Whole ones only: half a sentence may say the opposite of the whole. */
export function repairLine(repair: Prose, most: number): string {
  const [first = '', ...rest] = proseText(repair).split(SENTENCE_END);
  let line = first;
  for (const sentence of rest) {
    if (line.length >= LEAST && `${line} ${sentence}`.length > most) break;
    line = `${line} ${sentence}`;
  }
  return line;
}
