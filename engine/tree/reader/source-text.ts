import type { Place } from '../../problem.ts';

/** A file's text with plain line endings and no byte order mark, and the places of its offsets. */
export type SourceText = {
  readonly text: string;
  /** The place of [start, end), offsets in UTF-16 units. */
  readonly placeAt: (start: number, end: number) => Place;
  /** Offset of the start of a line, lines from 1. */
  readonly lineStart: (line: number) => number;
};

export function sourceText(raw: string): SourceText {
  const text = raw.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  const starts = [0];
  for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) starts.push(i + 1);
  const lineAt = (offset: number): number => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] ?? 0) <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  const placeAt = (start: number, end: number): Place => {
    const from = Math.max(0, Math.min(start, text.length));
    const to = Math.max(from, Math.min(end, text.length));
    const line = lineAt(from);
    const endLine = lineAt(to);
    return {
      line: line + 1,
      column: from - (starts[line] ?? 0) + 1,
      endLine: endLine + 1,
      endColumn: to - (starts[endLine] ?? 0) + 1,
    };
  };
  return { text, placeAt, lineStart: (line) => starts[line - 1] ?? text.length };
}
