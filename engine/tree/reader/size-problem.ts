import type { Report } from '../tree-problem.ts';
import type { SourceText } from './source-text.ts';

/** A tree of a thousand steps is half of this. */
const MOST_CHARACTERS = 1_000_000;
/** Lines without an empty one between them. The Markdown parser's time can grow with the square of it. */
const MOST_IN_BLOCK = 8_000;
const MOST_FRONT_MATTER = 100_000;
/** List and quotation marks, and indents, at the start of one line. */
const MOST_NESTED = 40;
const MOST_UNREADABLE = 20;

// Control characters and the mark that a decoder leaves for bytes that are no text; half of a surrogate pair.
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
const UNREADABLE = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffd\ufffe\uffff]|\p{Cs}/gu;

/** Reports what no parser should be given; false where the file must not be parsed at all. `bodyStart` is where the front matter ends. */
export function isParsable(source: SourceText, bodyStart: number, report: Report): boolean {
  const { text } = source;
  if (text.length > MOST_CHARACTERS) {
    report({ code: 'not-readable', what: 'too-large', size: text.length, most: MOST_CHARACTERS, place: { line: 1, column: 1 } });
    return false;
  }
  const unreadable = [...text.matchAll(UNREADABLE)];
  const first = unreadable[0];
  if (first) {
    const shown = `U+${(first[0].codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
    report({ code: 'not-readable', what: 'characters', count: unreadable.length, shown, place: source.placeAt(first.index, first.index + 1) });
    if (unreadable.length > MOST_UNREADABLE) return false;
  }
  let parsable = true;
  if (bodyStart > MOST_FRONT_MATTER) {
    report({ code: 'not-readable', what: 'block-too-long', place: source.placeAt(0, 3) });
    parsable = false;
  }
  let blockStart = bodyStart;
  let from = bodyStart;
  for (const line of text.slice(bodyStart).split('\n')) {
    if (line.trim() === '') blockStart = from + line.length + 1;
    else if (from + line.length - blockStart > MOST_IN_BLOCK && from - blockStart <= MOST_IN_BLOCK) {
      report({ code: 'not-readable', what: 'block-too-long', place: source.placeAt(from, from + line.length) });
      parsable = false;
    }
    const lead = /^(?:[ \t]|[>*+-]|\d{1,9}[.)](?=[ \t]))*/.exec(line)?.[0] ?? '';
    if (lead.replace(/[ \t]+/g, (run) => ' '.repeat(Math.floor(run.replaceAll('\t', '    ').length / 2))).length > MOST_NESTED && !isRule(line)) {
      report({ code: 'not-readable', what: 'nested', place: source.placeAt(from, from + lead.length) });
      parsable = false;
    }
    from += line.length + 1;
  }
  return parsable;
}

// A long line of dashes is a rule or a fence, not a nest.
const isRule = (line: string): boolean => /^\s*([-*_])(?:[ \t]*\1)*[ \t]*$/.test(line);
