import type { BlockContent, Heading, List, Paragraph, PhrasingContent, Root, Text } from 'mdast';
import { mdxExpressionToMarkdown } from 'mdast-util-mdx-expression';
import { mdxJsxToMarkdown } from 'mdast-util-mdx-jsx';
import { type Handle, type Options, toMarkdown } from 'mdast-util-to-markdown';
import type { Block, Inline, ListItem, Prose } from '../prose.ts';

// Each line is made safe by itself: the library's patterns take a line break with them, and so miss a sign at the start of the
// line after one that they changed.
const textLines: Handle = (node: Text, _parent, state, info) => {
  const lines = node.value.split('\n');
  const last = lines.length - 1;
  return lines
    .map((line, i) => state.safe(line, { ...info, before: i === 0 ? info.before : '\n', after: i === last ? info.after : '\n' }))
    .join('\n');
};

// Fixed in every point that the writer leaves open, so that the same tree is always the same text.
const OPTIONS: Options = {
  bullet: '-',
  bulletOther: '*',
  bulletOrdered: '.',
  emphasis: '*',
  strong: '*',
  fence: '`',
  fences: true,
  incrementListMarker: true,
  listItemIndent: 'one',
  rule: '*',
  ruleRepetition: 3,
  ruleSpaces: false,
  resourceLink: true,
  setext: false,
  tightDefinitions: true,
  // A line that begins with either word would be program code to any reader of MDX.
  unsafe: [
    { atBreak: true, character: 'i', after: 'mport\\s' },
    { atBreak: true, character: 'e', after: 'xport\\s' },
  ],
  handlers: { text: textLines },
  extensions: [mdxJsxToMarkdown(), mdxExpressionToMarkdown()],
};

const written = (root: Root | Paragraph | Heading): string => toMarkdown(root, OPTIONS).replace(/\n+$/, '');

/** Prose as Markdown, without a line break at its end. */
export const writeProse = (prose: Prose): string => written({ type: 'root', children: prose.map(blockNode) });

/** A heading of the second level. */
export const writeHeading = (title: string): string => written({ type: 'heading', depth: 2, children: [{ type: 'text', value: title }] });

/** One line of `text: [title](url)`. */
export function writeWay(on: string, title: string, url: string): string {
  const link: PhrasingContent = { type: 'link', url, children: [{ type: 'text', value: title }] };
  if (!isPlainBand(on)) return written({ type: 'paragraph', children: [{ type: 'text', value: `${on}: ` }, link] });
  return `${on}: ${written({ type: 'paragraph', children: [link] })}`;
}

// A band reads better without backslashes, and a lone `*` between spaces is no Markdown.
const isPlainBand = (on: string): boolean => /^[-+A-Za-z0-9 %./(),°Ωµ]*$/.test(on.replaceAll(' * ', ' ')) && !/^(?:[-+]|\d+[.)])(?: |$)/.test(on);

function blockNode(block: Block): BlockContent {
  switch (block.type) {
    case 'paragraph':
    case 'heading':
      return { ...block, children: block.children.map(inlineNode) };
    case 'blockquote':
      return { type: 'blockquote', children: block.children.map(blockNode) };
    case 'list':
      return listNode(block);
    default:
      return { ...block };
  }
}

function listNode(list: Extract<Block, { type: 'list' }>): List {
  // One item with more than a paragraph and lists under it sets the whole list apart with empty lines.
  const spread = list.children.some((item) => item.children.slice(1).some((child) => child.type !== 'list'));
  const item = (from: ListItem): List['children'][number] => ({ type: 'listItem', spread, children: from.children.map(blockNode) });
  return { type: 'list', ordered: list.ordered, spread, ...(list.ordered && { start: list.start ?? 1 }), children: list.children.map(item) };
}

function inlineNode(inline: Inline): PhrasingContent {
  switch (inline.type) {
    case 'emphasis':
    case 'strong':
    case 'link':
      return { ...inline, children: inline.children.map(inlineNode) };
    default:
      return { ...inline };
  }
}
