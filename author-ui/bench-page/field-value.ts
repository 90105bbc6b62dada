import type { EntryField } from './entry-fields.ts';
import { stagesOf, stagesText } from './stage-rows.ts';

/** A field's value in a file as its form shows it. */
export function shownValue(field: EntryField, value: unknown): string {
  if (value === undefined || value === null) return '';
  if (field.as === 'stages') return stagesText(value);
  return Array.isArray(value) ? value.join(', ') : String(value);
}

const wordsIn = (text: string): readonly string[] =>
  text
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');

/** What a form's text says as a file's value; undefined where nothing is typed. */
export function writtenValue(field: EntryField, text: string): unknown {
  const plain = text.trim();
  if (plain === '') return undefined;
  switch (field.as) {
    case 'pair':
      return wordsIn(plain);
    case 'words': {
      const words = wordsIn(plain);
      // One name stands without brackets, as in files written by hand; `or` of a state is always a list.
      return words.length === 1 && field.name !== 'or' ? words[0] : words;
    }
    case 'number': {
      const number = Number(plain);
      return Number.isFinite(number) ? number : plain;
    }
    case 'stages':
      return stagesOf(plain);
    default:
      return plain;
  }
}
