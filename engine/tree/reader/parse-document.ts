import type { Heading, Nodes, RootContent } from 'mdast';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { mdxExpressionFromMarkdown } from 'mdast-util-mdx-expression';
import { mdxJsxFromMarkdown } from 'mdast-util-mdx-jsx';
import { mdxExpression } from 'micromark-extension-mdx-expression';
import { mdxJsx } from 'micromark-extension-mdx-jsx';
import { mdxMd } from 'micromark-extension-mdx-md';
import { stepId } from '../step-id.ts';
import type { Report } from '../tree-problem.ts';
import { isParsable } from './size-problem.ts';
import { type SourceText, sourceText } from './source-text.ts';
import { isParserMessage, syntaxFault } from './syntax-problem.ts';

/** A part of the document under one `##` heading. */
export type Section = {
  readonly heading: Heading | undefined;
  /** The heading as it stands, where it could not be parsed. */
  readonly headingText: string;
  readonly start: number;
  readonly end: number;
  readonly nodes: readonly RootContent[];
  /** False where the parser failed inside: what it holds is not known. */
  readonly readable: boolean;
  /** The id that an unreadable section seems to name. */
  readonly idHint?: string;
};

export type ParsedDocument = {
  /** The YAML between the fences, and where it starts. */
  readonly frontMatter: { readonly text: string; readonly start: number; readonly end: number } | undefined;
  readonly opening: { readonly nodes: readonly RootContent[]; readonly readable: boolean };
  readonly sections: readonly Section[];
};

// MDX without a JavaScript parser: an expression is found by its braces, never read as a program, and nothing is run.
const OPTIONS = {
  extensions: [mdxMd(), mdxExpression(), mdxJsx()],
  mdastExtensions: [mdxExpressionFromMarkdown(), mdxJsxFromMarkdown()],
};

/**
 * Cuts a file into front matter, opening and sections. A syntax error costs the section that it stands in, no more.
 * Undefined where the file is not fit to be parsed at all.
 */
export function parseDocument(source: SourceText, report: Report): ParsedDocument | undefined {
  const { text } = source;
  const matter = frontMatterOf(source, report);
  if (matter === 'open') return undefined;
  const bodyStart = matter?.bodyStart ?? 0;
  if (!isParsable(source, bodyStart, report)) return undefined;
  const blanked = text.slice(0, bodyStart).replace(/[^\n]/g, ' ') + text.slice(bodyStart);
  const parsed = parsedNodes(blanked);
  const parts = 'nodes' in parsed ? cutByHeadings(parsed.nodes, text) : parsedApart(blanked, source, report);
  return { frontMatter: matter?.frontMatter, ...parts };
}

/** Undefined where there is none; `open` where nothing ends it, and so nothing tells it from the body. */
function frontMatterOf(source: SourceText, report: Report): { frontMatter: ParsedDocument['frontMatter']; bodyStart: number } | 'open' | undefined {
  const { text } = source;
  const open = /^---[ \t]*\n/.exec(text);
  if (!open) {
    report({ code: 'not-readable', what: 'no-front-matter', place: source.placeAt(0, text.indexOf('\n') < 0 ? text.length : text.indexOf('\n')) });
    return undefined;
  }
  const start = open[0].length;
  const close = /^---[ \t]*$/m.exec(text.slice(start));
  if (!close) {
    report({ code: 'not-readable', what: 'front-matter-open', place: source.placeAt(0, 3) });
    return 'open';
  }
  const end = start + close.index;
  return { frontMatter: { text: text.slice(start, end), start, end }, bodyStart: end + close[0].length };
}

type Parts = Pick<ParsedDocument, 'opening' | 'sections'>;

const offsets = (node: RootContent): { start: number; end: number } => ({
  start: node.position?.start.offset ?? 0,
  end: node.position?.end.offset ?? 0,
});

function cutByHeadings(nodes: readonly RootContent[], text: string): Parts {
  const opening: RootContent[] = [];
  const sections: (Section & { nodes: RootContent[] })[] = [];
  for (const node of nodes) {
    if (node.type === 'heading' && node.depth === 2) {
      const { start, end } = offsets(node);
      sections.push({ heading: node, headingText: text.slice(start, end), start, end, nodes: [], readable: true });
    } else (sections.at(-1)?.nodes ?? opening).push(node);
  }
  return { opening: { nodes: opening, readable: true }, sections };
}

/** Every section parsed by itself, so that one that cannot be read hides no other. */
function parsedApart(body: string, source: SourceText, report: Report): Parts {
  const sections: Section[] = [];
  let opening: ParsedDocument['opening'] = { nodes: [], readable: true };
  for (const { start, end, heading } of sectionSpans(body)) {
    const piece = body.slice(start, end);
    const lines = source.placeAt(start, start).line - 1;
    const step = heading === undefined ? undefined : stepId(heading.replace(/^\s*##/, '')) || undefined;
    const parsed = parsedNodes(piece);
    const readable = 'nodes' in parsed;
    const nodes = readable ? parsed.nodes : [];
    for (const node of nodes) shift(node, lines, start);
    if (!readable && isParserMessage(parsed.failed)) {
      const fault = syntaxFault(parsed.failed, piece, sourceText(piece).lineStart);
      report({ ...fault.data, step, place: source.placeAt(start + fault.start, start + fault.end) });
    } else if (!readable) {
      const what = parsed.failed instanceof RangeError ? 'nested' : 'tangled';
      report({ code: 'not-readable', what, step, place: source.placeAt(start, start + (heading ?? piece).length) });
    }
    if (heading === undefined) {
      opening = { nodes, readable };
      continue;
    }
    const [first, ...rest] = nodes;
    if (first?.type === 'heading' && first.depth === 2) {
      sections.push({ heading: first, headingText: heading, start, end: start + heading.length, nodes: rest, readable });
    } else {
      const idHint = /\sid="([a-z0-9-]+)"/.exec(piece)?.[1];
      sections.push({
        heading: undefined,
        headingText: heading,
        start,
        end: start + heading.length,
        nodes,
        readable,
        ...(idHint !== undefined && { idHint }),
      });
    }
  }
  return { opening, sections };
}

/** The parser's nodes, or what it threw: a message on the syntax, or where a component cuts through a link or heading, anything. */
function parsedNodes(text: string): { readonly nodes: readonly RootContent[] } | { readonly failed: unknown } {
  try {
    const { children } = fromMarkdown(text, OPTIONS);
    return isDeeperThan(DEEPEST, children) ? { failed: new RangeError('nested') } : { nodes: children };
  } catch (failed) {
    return { failed };
  }
}

// Far deeper than prose may go, far less than the call stack holds: what is nested deeper is not walked at all.
const DEEPEST = 100;

/** Whether some node has so many above it; without recursion, since that is what it guards. */
function isDeeperThan(most: number, nodes: readonly Nodes[]): boolean {
  let level = nodes;
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > most) return true;
    level = level.flatMap((node): readonly Nodes[] => ('children' in node ? node.children : []));
  }
  return false;
}

function* sectionSpans(body: string): Generator<{ start: number; end: number; heading?: string }> {
  let start = 0;
  let heading: string | undefined;
  let fence: string | undefined;
  for (let from = 0; from < body.length; ) {
    const newline = body.indexOf('\n', from);
    const next = newline < 0 ? body.length : newline + 1;
    const line = body.slice(from, newline < 0 ? body.length : newline);
    const mark = /^ {0,3}(`{3,}|~{3,})/.exec(line)?.[1];
    if (fence !== undefined) {
      if (mark?.startsWith(fence) && /^[\s`~]*$/.test(line)) fence = undefined;
    } else if (mark !== undefined) fence = mark;
    else if (/^ {0,3}##(?:[ \t]|$)/.test(line)) {
      yield { start, end: from, ...(heading !== undefined && { heading }) };
      start = from;
      heading = line;
    }
    from = next;
  }
  yield { start, end: body.length, ...(heading !== undefined && { heading }) };
}

type Positioned = { position?: Nodes['position'] };

function shift(node: Nodes | Positioned, lines: number, offset: number): void {
  const { position } = node;
  if (position) {
    for (const point of [position.start, position.end]) {
      point.line += lines;
      if (point.offset !== undefined) point.offset += offset;
    }
  }
  if ('attributes' in node) for (const attribute of node.attributes) shift(attribute, lines, offset);
  if ('children' in node) for (const child of node.children) shift(child, lines, offset);
}
