import { UNIT_SPELLINGS, type Unit, unitOf } from '../quantity/index.ts';
import { failure, type Result, success } from '../result.ts';
import type { FormulaProblem, Span } from './formula.ts';

export type Token =
  | { readonly type: 'number'; readonly written: string; readonly unit?: Unit; readonly at: Span }
  | { readonly type: 'name'; readonly text: string; readonly at: Span }
  | { readonly type: 'mark'; readonly text: string; readonly at: Span }
  | { readonly type: 'end'; readonly at: Span };

const SPACE = /\s+/y;
const NUMBER = /(?:\d+(?:\.\d+)?|\.\d+)(?:e[+-]?\d{1,3})?/y;
// A hyphen inside a name joins; a minus has a space on either side.
const NAME = /[A-Za-z_][A-Za-z0-9_]*(?:-[A-Za-z0-9_]+)*/y;
const MARK = /[-+*/(),]/y;
const WORD_LIKE = /[A-Za-z0-9_°²³µΩ%]/;

function matchAt(pattern: RegExp, text: string, from: number): string | undefined {
  pattern.lastIndex = from;
  return pattern.exec(text)?.[0];
}

function spellingAt(text: string, from: number): string | undefined {
  return UNIT_SPELLINGS.find((spelling) => {
    if (!text.startsWith(spelling, from)) return false;
    const after = text[from + spelling.length];
    return after === undefined || !WORD_LIKE.test(after) || !WORD_LIKE.test(spelling.at(-1) ?? '');
  });
}

/** The unit that stands at `from`, `pF/ft` included. */
function unitAt(text: string, from: number): { unit: Unit; length: number } | undefined {
  const over = spellingAt(text, from);
  if (over === undefined) return undefined;
  const slash = from + over.length;
  if (text[slash] === '/') {
    const under = spellingAt(text, slash + 1);
    const both = under === undefined ? undefined : unitOf(`${over}/${under}`);
    if (under !== undefined && both) return { unit: both, length: over.length + 1 + under.length };
  }
  const unit = unitOf(over);
  return unit && { unit, length: over.length };
}

/** Cuts source text into tokens; a number takes the unit that follows it. */
export function tokensOf(text: string): Result<readonly Token[], FormulaProblem> {
  const tokens: Token[] = [];
  // Same lengths, so that spans still point into the source.
  const source = text.replaceAll('\u03bc', '\u00b5').replaceAll('\u2126', '\u03a9').replaceAll('\u2212', '-').replaceAll('\u00d7', '*');
  let from = 0;
  while (from < source.length) {
    const space = matchAt(SPACE, source, from);
    if (space !== undefined) {
      from += space.length;
      continue;
    }
    const number = matchAt(NUMBER, source, from);
    if (number !== undefined) {
      const gap = matchAt(SPACE, source, from + number.length)?.length ?? 0;
      const found = unitAt(source, from + number.length + gap);
      const end = found ? from + number.length + gap + found.length : from + number.length;
      tokens.push({ type: 'number', written: number, at: [from, end], ...(found && { unit: found.unit }) });
      from = end;
      continue;
    }
    const name = matchAt(NAME, source, from);
    if (name !== undefined) {
      tokens.push({ type: 'name', text: name, at: [from, from + name.length] });
      from += name.length;
      continue;
    }
    const mark = matchAt(MARK, source, from);
    if (mark === undefined) {
      const found = String.fromCodePoint(source.codePointAt(from) ?? 0);
      return failure({ code: 'cannot-read', at: [from, from + found.length], found, expected: 'a number with a unit, a name or an operator' });
    }
    tokens.push({ type: 'mark', text: mark, at: [from, from + 1] });
    from += 1;
  }
  tokens.push({ type: 'end', at: [source.length, source.length] });
  return success(tokens);
}
