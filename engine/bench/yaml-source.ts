import { isAlias, isMap, isPair, isScalar, isSeq, LineCounter, type Node, type Pair, parseDocument, type YAMLMap } from 'yaml';
import type { Place } from '../problem.ts';

export type Path = readonly (string | number)[];

/** A YAML text as plain data, with the place of everything in it. */
export type YamlSource = {
  readonly value: unknown;
  /** The place of a value (or of its key), of its nearest holder where it is not in the file; `span` cuts out a part of a text. */
  readonly placeOf: (path: Path, options?: { readonly key?: boolean; readonly span?: readonly [number, number] }) => Place;
};

export type YamlTrouble = { readonly detail: string; readonly place: Place; readonly duplicate?: string };

type Range = readonly [number, number];
type Entry = { readonly value: Range; readonly key?: Range; readonly textAt?: number };

const pathKey = (path: Path): string => JSON.stringify(path);

// Opening less closing brackets: a formula cut at a comma has some left open.
const unclosed = (text: string): number => (text.match(/\(/g)?.length ?? 0) - (text.match(/\)/g)?.length ?? 0);

/** Reads YAML 1.2 with places. Anchors and aliases are refused: a bench says each thing where it stands. */
export function readYaml(
  text: string,
): { readonly ok: true; readonly source: YamlSource } | { readonly ok: false; readonly troubles: readonly YamlTrouble[] } {
  const lines = new LineCounter();
  const at = ([start, end]: Range): Place => {
    const from = lines.linePos(start);
    const to = lines.linePos(Math.max(start, end));
    return { line: Math.max(1, from.line), column: Math.max(1, from.col), endLine: Math.max(1, to.line), endColumn: Math.max(1, to.col) };
  };
  let document: ReturnType<typeof parseDocument>;
  try {
    document = parseDocument(text, { lineCounter: lines, prettyErrors: false, strict: true, uniqueKeys: false, merge: false });
  } catch {
    // The parser recurses; a text of nothing but brackets can exhaust it.
    return { ok: false, troubles: [{ detail: 'it is nested too deeply', place: { line: 1, column: 1 } }] };
  }
  const troubles: YamlTrouble[] = document.errors.map((error) => ({ detail: plainDetail(error.message), place: at([error.pos[0], error.pos[1]]) }));
  if (troubles.length > 0) return { ok: false, troubles };

  const entries = new Map<string, Entry>();
  const refuse = (detail: string, range: Range, duplicate?: string): void => {
    troubles.push({ detail, place: at(range), ...(duplicate !== undefined && { duplicate }) });
  };

  const convert = (node: unknown, path: Path, key?: Range, depth = 0): unknown => {
    if (!isNode(node)) {
      entries.set(pathKey(path), { value: key ?? [0, 0], ...(key && { key }) });
      return null;
    }
    const range = rangeOf(node);
    entries.set(pathKey(path), {
      value: range,
      ...(key && { key }),
      ...(isScalar(node) && oneLine(text, range) && { textAt: textStart(node, range) }),
    });
    if (depth > 40) {
      refuse('it is nested too deeply', range);
      return null;
    }
    if (isScalar(node)) return scalarValue(node.value, text, range);
    if (isSeq(node)) return node.items.map((item, i) => convert(isPair(item) ? undefined : item, [...path, i], undefined, depth + 1));
    if (isMap(node)) return mapOf(node, path, depth);
    refuse(isAlias(node) ? 'anchors and aliases are not used in a bench' : 'this cannot stand here', range);
    return null;
  };

  const mapOf = (node: YAMLMap, path: Path, depth: number): Record<string, unknown> => {
    const result: Record<string, unknown> = {};
    const pairs = node.items;
    for (let i = 0; i < pairs.length; i += 1) {
      const pair = pairs[i];
      if (!pair) continue;
      const keyNode = pair.key;
      if (!isScalar(keyNode) || keyNode.value === null) {
        refuse('a key must be a name', isNode(keyNode) ? rangeOf(keyNode) : rangeOf(node));
        continue;
      }
      const keyRange = rangeOf(keyNode);
      const name = String(keyNode.source ?? keyNode.value);
      if (Object.hasOwn(result, name)) refuse(`“${name}” stands twice`, keyRange, name);
      const joined = node.flow ? joinedFormula(pairs, i, text) : undefined;
      const value = joined ? joined.text : convert(pair.value, [...path, name], keyRange, depth + 1);
      if (joined) {
        entries.set(pathKey([...path, name]), { value: joined.range, key: keyRange, textAt: joined.range[0] });
        i = joined.last;
      }
      // Not by assignment: '__proto__' is a key like any other here.
      Object.defineProperty(result, name, { value, enumerable: true, configurable: true, writable: true });
    }
    return result;
  };

  let value: unknown;
  try {
    value = convert(document.contents, []);
  } catch {
    return { ok: false, troubles: [{ detail: 'it is nested too deeply', place: { line: 1, column: 1 } }] };
  }
  if (troubles.length > 0) return { ok: false, troubles };

  return {
    ok: true,
    source: {
      value,
      placeOf(path, options = {}) {
        for (let length = path.length; length >= 0; length -= 1) {
          const entry = entries.get(pathKey(path.slice(0, length)));
          if (!entry) continue;
          const whole = length === path.length;
          if (whole && options.span && entry.textAt !== undefined) return at([entry.textAt + options.span[0], entry.textAt + options.span[1]]);
          const range = (options.key || !whole) && entry.key ? entry.key : entry.value;
          return length === 0 ? at([range[0], range[0]]) : at(range);
        }
        return { line: 1, column: 1 };
      },
    },
  };
}

const isNode = (node: unknown): node is Node => isScalar(node) || isMap(node) || isSeq(node) || isAlias(node);

function rangeOf(node: Node): Range {
  return node.range ? [node.range[0], node.range[1]] : [0, 0];
}

const oneLine = (text: string, [start, end]: Range): boolean => !text.slice(start, end).includes('\n');

const textStart = (node: Node, range: Range): number =>
  range[0] + (isScalar(node) && (node.type === 'QUOTE_DOUBLE' || node.type === 'QUOTE_SINGLE') ? 1 : 0);

// Numbers too great or fine for a double are no numbers of a bench; they stay as text and are judged as such.
function scalarValue(value: unknown, text: string, [start, end]: Range): unknown {
  return typeof value === 'number' && !Number.isFinite(value) ? text.slice(start, end) : value;
}

/**
 * Inside `{ … }` YAML ends an unquoted text at a comma, which cuts `volts(R, C) above 18 V` in two: the first half with an open bracket, the
 * rest as keys without values. No other text reads so, and the rest is put back on.
 */
function joinedFormula(
  pairs: readonly Pair[],
  at: number,
  text: string,
): { readonly text: string; readonly range: Range; readonly last: number } | undefined {
  const first = pairs[at]?.value;
  if (!isScalar(first) || first.type !== 'PLAIN' || typeof first.value !== 'string' || unclosed(first.value) <= 0) return undefined;
  const start = rangeOf(first)[0];
  for (let last = at + 1; last < pairs.length; last += 1) {
    const pair = pairs[last];
    if (!pair || !isScalar(pair.key) || pair.key.type !== 'PLAIN') return undefined;
    if (pair.value !== null && !(isScalar(pair.value) && pair.value.value === null)) return undefined;
    const end = rangeOf(pair.key)[1];
    const whole = text.slice(start, end).replaceAll(/\s+/g, (space) => ' '.repeat(space.length));
    if (unclosed(whole) <= 0) return { text: whole, range: [start, end], last };
  }
  return undefined;
}

const plainDetail = (message: string): string =>
  message
    .replace(/ at line \d+.*$/s, '')
    .replace(/\s+/g, ' ')
    .trim();
