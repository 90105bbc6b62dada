import { isMap, isScalar, Lexer, LineCounter, type Pair, parseDocument, type YAMLMap } from 'yaml';
import type { Tree } from '../tree.ts';
import { entryLines, type FrontMatterEntry, frontMatterEntries, writeFrontMatter } from './write-front-matter.ts';

/** The lines of one key: from its own to the last of its value, the latter not included. */
type Piece = { readonly from: number; readonly to: number; readonly map: YAMLMap | undefined };

/** Lines to put in the place of others; none are replaced where `from` is `to`. */
type LineEdit = { readonly from: number; readonly to: number; readonly lines: readonly string[] };

/**
 * A front matter after an edit of its tree, fences included. Only the lines of keys that the edit changes are written anew, so comments,
 * empty lines and the order of keys stay. `raw` is what `before` was read from, with line feeds only. A front matter that is no
 * map, or that is written all in braces, is written canonically.
 */
export function editFrontMatter(raw: string, before: Tree, after: Tree): string {
  if (writeFrontMatter(before) === writeFrontMatter(after)) return raw.trimEnd();
  const lines = raw.trimEnd().split('\n');
  const fence = lines.findLastIndex((line) => line.trimEnd() === '---');
  const inner = lines.slice(1, fence);
  const counter = new LineCounter();
  const document = parseDocument(`${inner.join('\n')}\n`, { lineCounter: counter });
  const root = document.contents;
  if (fence < 1 || document.errors.length > 0 || !isMap(root) || root.flow === true) return writeFrontMatter(after).trimEnd();
  const edits = editsOf(root, frontMatterEntries(before), frontMatterEntries(after), { inner, counter, end: inner.length });
  return [lines[0], ...withEdits(inner, edits), ...lines.slice(fence)].join('\n');
}

type Source = {
  readonly inner: readonly string[];
  readonly counter: LineCounter;
  /** The line behind the map. */
  readonly end: number;
};

function editsOf(map: YAMLMap, before: readonly FrontMatterEntry[], after: readonly FrontMatterEntry[], source: Source): readonly LineEdit[] {
  const pieces = piecesOf(map, source);
  const old = new Map(before.map((entry) => [entry.key, entry]));
  const kept = new Set(after.map(({ key }) => key));
  const indent = ' '.repeat(columnOf(map, source));
  const written = (entry: FrontMatterEntry): readonly string[] => entryLines(entry).map((line, at) => (at === 0 ? indent + line.trimStart() : line));
  const edits: LineEdit[] = [];
  const replaced = new Set<string>();
  // Where a new key goes: behind the last one before it that is there.
  let behind = pieces.size === 0 ? 0 : Math.min(...[...pieces.values()].map(({ from }) => from));
  for (const [at, entry] of after.entries()) {
    const was = old.get(entry.key);
    // A key that stands where another one went is that one under a new name.
    const renamed = was === undefined && before[at] !== undefined && !kept.has(before[at].key) ? before[at].key : entry.key;
    const piece = pieces.get(renamed);
    if (!piece) {
      if (!was || !isSame(was, entry)) edits.push({ from: behind, to: behind, lines: written(entry) });
      continue;
    }
    behind = piece.to;
    if (renamed !== entry.key) replaced.add(renamed);
    if (was && isSame(was, entry)) continue;
    if (was?.inside && entry.inside && piece.map && isInOrder(was.inside, entry.inside)) {
      edits.push(...editsOf(piece.map, was.inside, entry.inside, { ...source, end: piece.to }));
    } else {
      edits.push({ from: piece.from, to: piece.to, lines: withComments(source.inner.slice(piece.from, piece.to), written(entry), indent) });
    }
  }
  for (const { key } of before) {
    const piece = pieces.get(key);
    if (!piece || kept.has(key) || replaced.has(key)) continue;
    // What is said on lines of its own stays; what stands behind the value goes with it.
    const own = source.inner.slice(piece.from, piece.to).filter((line) => line.trimStart().startsWith('#'));
    edits.push({ from: piece.from, to: piece.to, lines: own });
  }
  return edits;
}

const isSame = (a: FrontMatterEntry, b: FrontMatterEntry): boolean => entryLines(a).join('\n') === entryLines(b).join('\n');

/** Whether what both have comes in the same order. */
function isInOrder(before: readonly FrontMatterEntry[], after: readonly FrontMatterEntry[]): boolean {
  const common = (one: readonly FrontMatterEntry[], other: readonly FrontMatterEntry[]): string =>
    one.flatMap(({ key }) => (other.some((entry) => entry.key === key) ? [key] : [])).join('\n');
  return common(before, after) === common(after, before);
}

function piecesOf(map: YAMLMap, { inner, counter, end }: Source): ReadonlyMap<string, Piece> {
  const starts = map.items.map((item) => lineOf(item, counter));
  return new Map(
    map.items.flatMap((item, at) => {
      const key = isScalar(item.key) ? String(item.key.value) : undefined;
      const from = starts[at];
      if (key === undefined || from === undefined) return [];
      // Up to the next key, without the comments and empty lines that stand before that.
      let to = starts[at + 1] ?? end;
      const last = lastLine(item, counter, from);
      while (to > last + 1 && isAside(inner[to - 1] ?? '')) to -= 1;
      return [[key, { from, to, map: isMap(item.value) && item.value.flow !== true ? item.value : undefined }] as const];
    }),
  );
}

const isAside = (line: string): boolean => line.trim() === '' || line.trimStart().startsWith('#');

function lineOf({ key }: Pair, counter: LineCounter): number | undefined {
  const at = isScalar(key) ? key.range?.[0] : undefined;
  return at === undefined || at === null ? undefined : counter.linePos(at).line - 1;
}

/** The last line of a value: a text over several lines may hold lines that look like comments. */
function lastLine({ value }: Pair, counter: LineCounter, from: number): number {
  if (isMap(value) && value.flow !== true) return from;
  const range = typeof value === 'object' && value !== null && 'range' in value ? (value.range as readonly number[] | null | undefined) : undefined;
  const end = range?.[1];
  return end === undefined ? from : Math.max(from, counter.linePos(Math.max(0, end - 1)).line - 1);
}

/** The column that a map's keys stand in. */
function columnOf(map: YAMLMap, { counter }: Source): number {
  const key = map.items[0]?.key;
  const at = isScalar(key) ? key.range?.[0] : undefined;
  return at === undefined ? 0 : counter.linePos(at).col - 1;
}

/** The new lines of a key with what was remarked on the old ones: behind a value of one line, above one of several. */
function withComments(old: readonly string[], written: readonly string[], indent: string): readonly string[] {
  const comments = [...new Lexer().lex(`${old.join('\n')}\n`)].filter((lexeme) => lexeme.startsWith('#'));
  const [first, ...more] = comments;
  if (first === undefined) return written;
  if (old.length === 1 && more.length === 0)
    return [`${written[0]}${/\s+$/.exec((old[0] ?? '').slice(0, -first.length))?.[0] ?? ' '}${first}`, ...written.slice(1)];
  return [...comments.map((comment) => indent + comment), ...written];
}

function withEdits(lines: readonly string[], edits: readonly LineEdit[]): readonly string[] {
  const ordered = edits.map((edit, at) => ({ ...edit, at })).sort((a, b) => a.from - b.from || a.to - b.to || a.at - b.at);
  const result: string[] = [];
  let at = 0;
  for (const { from, to, lines: written } of ordered) {
    result.push(...lines.slice(at, from), ...written);
    at = Math.max(at, to);
  }
  return [...result, ...lines.slice(at)];
}
