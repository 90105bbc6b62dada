import type { ProblemData } from '../tree-problem.ts';

/** What the Markdown parser throws, as far as it is used here. Offsets are into the text that was parsed. */
type ParserMessage = { readonly reason: string; readonly ruleId?: string; readonly place?: unknown };

export type SyntaxFault = { readonly data: ProblemData; readonly start: number; readonly end: number };

export function isParserMessage(error: unknown): error is ParserMessage {
  return error instanceof Error && 'reason' in error && typeof error.reason === 'string';
}

/** Puts a parser's message about `text` into a problem of the language, at the piece of text that causes it. */
export function syntaxFault(message: ParserMessage, text: string, lineStart: (line: number) => number): SyntaxFault {
  const at = offsetOf(message.place) ?? text.length;
  const { reason, ruleId } = message;
  if (reason.includes('expression')) return braceFault(text, at);
  if (ruleId === 'end-tag-mismatch') return tagFault(reason, text, at, lineStart);
  const open = text.lastIndexOf('<', Math.min(at, text.length - 1));
  const start = open < 0 ? Math.min(at, text.length) : open;
  if (ruleId === 'unexpected-closing-slash') {
    const name = /^<\/\s*([\w.:$-]*)/.exec(text.slice(start, start + 60))?.[1] ?? '';
    return { data: { code: 'not-readable', what: 'stray-closing', name }, start, end: start + 2 + name.length };
  }
  const shown = text.slice(start, Math.max(at + 1, start + 1)).split('\n')[0] ?? '';
  const end = start + shown.length;
  if (text.startsWith('<!', start)) return { data: { code: 'code-in-prose', what: 'comment', text: shown }, start, end };
  if (!/^<\/?[A-Za-z]/.test(shown) || /^<[a-z]+:/.test(shown)) return { data: { code: 'code-in-prose', what: 'angle', text: shown }, start, end };
  return { data: { code: 'not-readable', what: 'tag', text: shown.slice(0, 60) }, start, end };
}

function offsetOf(place: unknown): number | undefined {
  if (typeof place !== 'object' || place === null) return undefined;
  if ('offset' in place && typeof place.offset === 'number') return place.offset;
  return 'start' in place ? offsetOf(place.start) : undefined;
}

/** The parser stops where the text ends; the cause is the first brace that nothing closes. */
function braceFault(text: string, at: number): SyntaxFault {
  const open: number[] = [];
  for (let i = 0; i < text.length; i += 1) {
    const c = text[i];
    if (c === '\\') i += 1;
    else if (c === '{') open.push(i);
    else if (c === '}') open.pop();
  }
  const start = open[0] ?? Math.max(0, text.lastIndexOf('{', Math.min(at, text.length - 1)));
  const line = text.slice(start, start + 40).split('\n')[0] ?? '{';
  return { data: { code: 'code-in-prose', what: 'brace', text: line }, start, end: start + 1 };
}

/** A tag that does not end, or ends in the wrong place. The parser names the tags, and where the open one stands as `(1:1-1:10)`. */
function tagFault(reason: string, text: string, at: number, lineStart: (line: number) => number): SyntaxFault {
  const names = [...reason.matchAll(/`<\/?([^`>]*)>`/g)].map((match) => match[1] ?? '');
  const [first = '', second = ''] = names;
  if (reason.startsWith('Unexpected closing tag')) {
    const end = text.indexOf('>', at);
    return { data: { code: 'not-readable', what: 'closed-by-other', name: second, found: first }, start: at, end: end < 0 ? text.length : end + 1 };
  }
  const span = /\((\d+):(\d+)-(\d+):(\d+)\)/.exec(reason)?.slice(1).map(Number);
  const [line, column, endLine, endColumn] = span ?? [];
  if (line !== undefined && column !== undefined && endLine !== undefined && endColumn !== undefined) {
    const start = lineStart(line) + column - 1;
    return { data: { code: 'not-readable', what: 'not-closed', name: first }, start, end: lineStart(endLine) + endColumn - 1 };
  }
  const start = Math.max(0, text.lastIndexOf('<', Math.min(at, text.length - 1)));
  return { data: { code: 'not-readable', what: 'not-closed', name: first }, start, end: Math.min(text.length, start + first.length + 1) };
}
