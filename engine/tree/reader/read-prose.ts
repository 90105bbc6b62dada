import type { BlockContent, DefinitionContent, PhrasingContent, RootContent } from 'mdast';
import type {} from 'mdast-util-mdx-expression';
import type {} from 'mdast-util-mdx-jsx';
import { toString as plainTextOf } from 'mdast-util-to-string';
import { COMPONENT_NAMES, isComponent } from '../components.ts';
import { didYouMean } from '../did-you-mean.ts';
import { type Block, FIGURE, type Inline, LINK, type ListItem } from '../prose.ts';
import type { LinkPlace } from '../tree-places.ts';
import type { MisplacedWhy, NotKept, ProblemData } from '../tree-problem.ts';
import { nodePlace, type ReaderContext, sourceOf } from './reader-context.ts';

// Deeper than any page that is read on a phone; keeps every later walk over prose shallow.
const DEEPEST = 12;

type AnyBlock = RootContent | BlockContent | DefinitionContent;

/** Prose of the tree from Markdown nodes; what prose cannot hold is reported. */
export function readBlocks(nodes: readonly AnyBlock[], context: ReaderContext, links: LinkPlace[], depth = 0): Block[] {
  return nodes.flatMap((node) => block(node, context, links, depth));
}

function block(node: AnyBlock, context: ReaderContext, links: LinkPlace[], depth: number): Block[] {
  if (depth > DEEPEST) return dropped(node, context, { code: 'not-kept', what: 'too-deep', text: shown(node, context) });
  switch (node.type) {
    case 'paragraph': {
      const word = depth === 0 ? /^(?:import|export)(?=\s)/.exec(sourceOf(node, context))?.[0] : undefined;
      if (word !== undefined) return dropped(node, context, { code: 'code-in-prose', what: 'import', text: word });
      const children = readInlines(node.children, context, links, depth + 1);
      return children.length === 0 ? [] : [{ type: 'paragraph', children }];
    }
    case 'heading': {
      const title = plainTextOf(node);
      if (node.depth !== 3 && node.depth !== 4) {
        const why = node.depth === 1 ? 'level-1' : node.depth === 2 ? 'inside' : 'level-5';
        return dropped(node, context, { code: 'bad-heading', why, title });
      }
      return [{ type: 'heading', depth: node.depth, children: readInlines(node.children, context, links, depth + 1) }];
    }
    case 'blockquote':
      return [{ type: 'blockquote', children: readBlocks(node.children, context, links, depth + 1) }];
    case 'list': {
      const children: ListItem[] = node.children.map((item) => ({
        type: 'listItem',
        children: readBlocks(item.children, context, links, depth + 1),
      }));
      const start = node.start ?? 1;
      return [{ type: 'list', ordered: node.ordered === true, ...(node.ordered && start !== 1 && { start }), children }];
    }
    case 'code': {
      const language = [node.lang, node.meta].filter(Boolean).join(' ');
      if (language !== '') context.report({ code: 'comment-not-kept', what: 'code-language', text: language, place: nodePlace(node, context) });
      return [{ type: 'code', value: node.value }];
    }
    case 'thematicBreak':
      return [{ type: 'thematicBreak' }];
    case 'definition':
      return dropped(node, context, { code: 'not-kept', what: 'definition', text: shown(node, context) });
    default:
      return misfit(node, context, 'in-list');
  }
}

/** Text of a paragraph from Markdown nodes. */
export function readInlines(nodes: readonly PhrasingContent[], context: ReaderContext, links: LinkPlace[], depth: number): Inline[] {
  const read: Inline[] = [];
  for (const node of nodes) {
    for (const inline of inlineOf(node, context, links, depth)) {
      const last = read.at(-1);
      if (inline.type === 'text' && last?.type === 'text') read[read.length - 1] = { type: 'text', value: last.value + inline.value };
      else read.push(inline);
    }
  }
  return read;
}

function inlineOf(node: PhrasingContent, context: ReaderContext, links: LinkPlace[], depth: number): Inline[] {
  if (depth > DEEPEST) return dropped(node, context, { code: 'not-kept', what: 'too-deep', text: shown(node, context) });
  switch (node.type) {
    case 'text':
    case 'inlineCode':
      return [{ type: node.type, value: node.value }];
    case 'break':
      return [{ type: 'break' }];
    case 'emphasis':
    case 'strong':
      return [{ type: node.type, children: readInlines(node.children, context, links, depth + 1) }];
    case 'link': {
      const place = nodePlace(node, context);
      if (node.title) context.report({ code: 'not-kept', what: 'link-title', text: node.title, place });
      if (!LINK.test(node.url)) return dropped(node, context, { code: 'not-kept', what: 'link-address', text: node.url });
      links.push({ url: node.url, place });
      return [{ type: 'link', url: node.url, children: readInlines(node.children, context, links, depth + 1) }];
    }
    case 'image': {
      const place = nodePlace(node, context);
      if (node.title) context.report({ code: 'not-kept', what: 'link-title', text: node.title, place });
      if (!FIGURE.test(node.url)) return dropped(node, context, { code: 'not-kept', what: 'image-outside-figures', text: node.url });
      links.push({ url: node.url, place });
      return [{ type: 'image', url: node.url, alt: node.alt ?? '' }];
    }
    case 'linkReference':
    case 'imageReference':
      return dropped(node, context, { code: 'not-kept', what: 'reference', text: shown(node, context) });
    default:
      return misfit(node, context, 'in-text');
  }
}

function dropped(node: AnyBlock | PhrasingContent, context: ReaderContext, data: ProblemData): [] {
  context.report({ ...data, place: nodePlace(node, context) });
  return [];
}

const shown = (node: AnyBlock | PhrasingContent, context: ReaderContext): string => (sourceOf(node, context).split('\n')[0] ?? '').slice(0, 60);

/** Reports code, an unknown component, a known one where it cannot stand, or Markdown that prose does not have. */
function misfit(node: AnyBlock | PhrasingContent, context: ReaderContext, why: MisplacedWhy): [] {
  switch (node.type) {
    case 'mdxFlowExpression':
    case 'mdxTextExpression':
      return dropped(node, context, {
        code: 'code-in-prose',
        what: node.value.trim().startsWith('/*') ? 'comment' : 'expression',
        text: shown(node, context),
      });
    case 'mdxJsxFlowElement':
    case 'mdxJsxTextElement':
      return dropped(node, context, componentMisfit(node.name ?? '', why));
    default: {
      const what: NotKept = 'markup';
      return dropped(node, context, { code: 'not-kept', what, text: shown(node, context) });
    }
  }
}

/** What is wrong with a component of this name where it stands. */
export function componentMisfit(name: string, why: MisplacedWhy): ProblemData {
  if (isComponent(name)) return { code: 'misplaced-component', name, why };
  if (name.toLowerCase() === 'script') return { code: 'code-in-prose', what: 'script', text: name };
  return { code: 'unknown-component', name, suggestion: didYouMean(name, COMPONENT_NAMES) };
}
