import { z } from 'zod';

/**
 * Prose as data: the part of the Markdown syntax tree that a tree file may hold, without positions. Nothing in it can
 * run: no HTML, no expression, no component, and links only to steps, to https and to tel.
 */
export type Inline =
  | { readonly type: 'text'; readonly value: string }
  | { readonly type: 'inlineCode'; readonly value: string }
  | { readonly type: 'break' }
  | { readonly type: 'emphasis'; readonly children: readonly Inline[] }
  | { readonly type: 'strong'; readonly children: readonly Inline[] }
  | { readonly type: 'link'; readonly url: string; readonly children: readonly Inline[] }
  | { readonly type: 'image'; readonly url: string; readonly alt: string };

export type Block =
  | { readonly type: 'paragraph'; readonly children: readonly Inline[] }
  | { readonly type: 'heading'; readonly depth: 3 | 4; readonly children: readonly Inline[] }
  | { readonly type: 'blockquote'; readonly children: readonly Block[] }
  | { readonly type: 'list'; readonly ordered: boolean; readonly start?: number | undefined; readonly children: readonly ListItem[] }
  | { readonly type: 'code'; readonly value: string }
  | { readonly type: 'thematicBreak' };

export type ListItem = { readonly type: 'listItem'; readonly children: readonly Block[] };

export type Prose = readonly Block[];

/** Addresses that prose may link to: a step of this tree, a step of another, a web page, a telephone. */
export const LINK = /^(#[a-z0-9-]+|[a-z0-9-]+\.tree\.mdx(#[a-z0-9-]+)?|https:\/\/[^\s]+|tel:[+0-9 ().-]+)$/;

/** Figures lie beside the trees and travel inside the edition. */
export const FIGURE = /^figures\/[a-z0-9-]+\.(png|jpg|svg|webp)$/;

const children = <T extends z.ZodType>(schema: T) => z.array(schema);

export const inlineSchema: z.ZodType<Inline> = z.lazy(() =>
  z.discriminatedUnion('type', [
    z.strictObject({ type: z.literal('text'), value: z.string() }),
    z.strictObject({ type: z.literal('inlineCode'), value: z.string() }),
    z.strictObject({ type: z.literal('break') }),
    z.strictObject({ type: z.literal('emphasis'), children: children(inlineSchema) }),
    z.strictObject({ type: z.literal('strong'), children: children(inlineSchema) }),
    z.strictObject({ type: z.literal('link'), url: z.string().regex(LINK), children: children(inlineSchema) }),
    z.strictObject({ type: z.literal('image'), url: z.string().regex(FIGURE), alt: z.string() }),
  ]),
);

export const listItemSchema: z.ZodType<ListItem> = z.lazy(() => z.strictObject({ type: z.literal('listItem'), children: children(blockSchema) }));

export const blockSchema: z.ZodType<Block> = z.lazy(() =>
  z.discriminatedUnion('type', [
    z.strictObject({ type: z.literal('paragraph'), children: children(inlineSchema) }),
    z.strictObject({ type: z.literal('heading'), depth: z.union([z.literal(3), z.literal(4)]), children: children(inlineSchema) }),
    z.strictObject({ type: z.literal('blockquote'), children: children(blockSchema) }),
    z.strictObject({
      type: z.literal('list'),
      ordered: z.boolean(),
      start: z.number().int().nonnegative().optional(),
      children: children(listItemSchema),
    }),
    z.strictObject({ type: z.literal('code'), value: z.string() }),
    z.strictObject({ type: z.literal('thematicBreak') }),
  ]),
);

export const proseSchema: z.ZodType<Prose> = z.array(blockSchema);
