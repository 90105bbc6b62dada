import { isChoice } from '../../engine/tree/index.ts';
import type { FactState } from '../../engine/walk/index.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';

/** A fact's value as people read it. */
export const factText = ({ spec, text }: Pick<FactState, 'spec' | 'text'>): string =>
  isChoice(spec)
    ? plainWords(text)
    : text
        .replace(/\bMohm\b/, 'MΩ')
        .replace(/\bkohm\b/, 'kΩ')
        .replace(/\bohm\b/, 'Ω')
        .replace(/\bu(?=[AF]\b)/, 'µ');
