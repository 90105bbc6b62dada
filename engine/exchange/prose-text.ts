import { toString as plainText } from 'mdast-util-to-string';
import type { Prose } from '../tree/index.ts';

/** Prose without its marks, a block a line. */
export const proseText = (prose: Prose): string => prose.map((block) => plainText(block)).join('\n');
