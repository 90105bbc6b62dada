import { CST, isAlias, isMap, isScalar, isSeq, Lexer, type Node, type ParsedNode, parseDocument, type YAMLError } from 'yaml';
import type { Place } from '../../problem.ts';
import type { FrontMatterFault, Report } from '../tree-problem.ts';
import type { SourceText } from './source-text.ts';

export type YamlValue = string | readonly YamlValue[] | { readonly [key: string]: YamlValue };

export type ReadYaml = {
  /** Undefined where the YAML itself cannot be read. */
  readonly value: YamlValue | undefined;
  /** Values by key path joined with dots, and `#` after a path for its key. */
  readonly places: ReadonlyMap<string, Place>;
};

const FAULTS: Partial<Record<YAMLError['code'], FrontMatterFault>> = {
  DUPLICATE_KEY: 'twice',
  TAB_AS_INDENT: 'tab',
  BAD_INDENT: 'indent',
  MISSING_CHAR: 'not-closed',
};

/** Reads YAML as text, lists and maps of text. What text cannot hold (anchors, tags, comments) is reported. */
export function readYaml(text: string, offset: number, source: SourceText, report: Report): ReadYaml {
  const places = new Map<string, Place>();
  const placeAt = (start: number, end: number): Place => source.placeAt(offset + start, offset + end);
  reportComments(text, placeAt, report);
  const document = parsed(text);
  if (document === undefined) {
    report({ code: 'not-readable', what: 'nested', place: placeAt(0, text.length) });
    return { value: undefined, places };
  }
  // The first one only: what comes after it in YAML is mostly its echo.
  const [error] = document.errors;
  if (error) {
    const [start, end] = error.pos;
    const detail = error.message.startsWith('Flow ') ? 'not-closed' : (FAULTS[error.code] ?? 'other');
    report({ code: 'not-readable', what: 'front-matter', detail, place: placeAt(start, Math.max(start + 1, end)) });
    return { value: undefined, places };
  }

  const convert = (node: Node | null | undefined, path: string): YamlValue => {
    const [start, end] = node?.range ?? [0, 0];
    const place = placeAt(start, end);
    if (node) places.set(path, place);
    if (isAlias(node)) {
      report({ code: 'not-kept', what: 'anchor', text: `*${node.source}`, place });
      return '';
    }
    if (node && 'anchor' in node && node.anchor) report({ code: 'not-kept', what: 'anchor', text: `&${String(node.anchor)}`, place });
    if (node?.tag?.startsWith('!')) report({ code: 'not-kept', what: 'tag', text: node.tag, place });
    if (isScalar(node)) return typeof node.value === 'string' ? node.value : '';
    if (isSeq(node)) return node.items.map((item, i) => convert(item as Node, `${path}.${i}`));
    if (!isMap(node)) return '';
    const entries: [string, YamlValue][] = [];
    for (const { key, value } of node.items) {
      const name = isScalar(key) && typeof key.value === 'string' ? key.value : undefined;
      const [keyStart, keyEnd] = (key as Node | null)?.range ?? [start, end];
      if (name === undefined || name === '__proto__') {
        report({ code: 'not-readable', what: 'front-matter', detail: 'other', place: placeAt(keyStart, keyEnd) });
        continue;
      }
      const inner = path === '' ? name : `${path}.${name}`;
      places.set(`${inner}#`, placeAt(keyStart, keyEnd));
      entries.push([name, convert(value as Node | null, inner)]);
    }
    return Object.fromEntries(entries);
  };
  return { value: convert(document.contents, ''), places };
}

function parsed(text: string): { contents: ParsedNode | null; errors: readonly YAMLError[] } | undefined {
  try {
    return parseDocument(text, { schema: 'failsafe', strict: true, prettyErrors: false, logLevel: 'silent' });
  } catch {
    // The YAML parser recurses into what is nested; the stack is its only limit.
    return undefined;
  }
}

function reportComments(text: string, placeAt: (start: number, end: number) => Place, report: Report): void {
  if (!text.includes('#')) return;
  let at = 0;
  // The lexer says 'scalar' before the text of one; that text may itself begin with '#'.
  let scalarNext = false;
  for (const token of new Lexer().lex(text)) {
    const type = CST.tokenType(token);
    if (type === 'doc-mode' || type === 'scalar' || type === 'flow-error-end') {
      scalarNext = type === 'scalar';
      continue;
    }
    if (type === 'comment' && !scalarNext)
      report({ code: 'comment-not-kept', what: 'front-matter', text: token, place: placeAt(at, at + token.length) });
    scalarNext = false;
    at += token.length;
  }
}
