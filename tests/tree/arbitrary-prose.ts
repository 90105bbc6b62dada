import fc from 'fast-check';
import type { Block, Inline, ListItem, Prose } from '../../engine/tree/index.ts';

// Every sign that Markdown, MDX or YAML gives a meaning to, among the letters and signs of the trade.
const SIGNS = [...'*_`#[](){}<>&!|~\\-+.:;,\'"/=@%$^?0123456789', '°', 'Ω', 'µ', '½', '–', '“', '”', 'é', '😀'];
const LETTERS = [...'abcdefghijklmnopqrstuvwxyzABCRWYG'];
const WORDS = [
  'import',
  'export',
  '24',
  'V',
  'R',
  'C',
  'below',
  '1.',
  '1)',
  '-',
  '+',
  '#',
  '---',
  '***',
  '&amp;',
  '<b>',
  'https://x.test',
  '{a}',
  'null',
  'on',
];

const word = fc.oneof(
  { weight: 3, arbitrary: fc.string({ unit: fc.constantFrom(...LETTERS), minLength: 1, maxLength: 6 }) },
  { weight: 2, arbitrary: fc.string({ unit: fc.constantFrom(...LETTERS, ...SIGNS), minLength: 1, maxLength: 6 }) },
  { weight: 1, arbitrary: fc.constantFrom(...WORDS) },
);

/** One line of text with single spaces, as titles, labels and attributes hold. */
export const lineOfText = fc.array(word, { minLength: 1, maxLength: 5 }).map((words) => words.join(' '));

/** Text of a paragraph, which may go on in a next line. */
const textOfLines = fc.array(lineOfText, { minLength: 1, maxLength: 2 }).map((lines) => lines.join('\n'));

const url = fc.constantFrom(
  '#hand-over',
  'other-tree.tree.mdx#a-step',
  'other-tree.tree.mdx',
  'https://example.test/a_b(c)?d=1&amp=2',
  'tel:+1 (555) 010-0199',
);

const text = (value: string): Inline => ({ type: 'text', value });

// Text before, between and after marks, close to them or with a space: `(**R**)`, `**R**s`, `the **R** terminal`.
const around = (marks: readonly Inline[], texts: readonly string[], tight: boolean): Inline[] => {
  const space = tight ? '' : ' ';
  return marks.flatMap((mark, i) => [mark, text(`${space}${texts[i % texts.length] ?? 'x'}${i < marks.length - 1 ? space : ''}`)]);
};

const code = lineOfText.map((value): Inline => ({ type: 'inlineCode', value: value.replaceAll('`', "'") }));
const image = lineOfText.map((alt): Inline => ({ type: 'image', url: 'figures/terminals.png', alt }));
const emphasis = fc
  .tuple(fc.constantFrom('emphasis' as const, 'strong' as const), lineOfText, fc.option(code, { nil: undefined }))
  .map(([type, words, inner]): Inline => ({ type, children: inner ? [text(`${words} `), inner] : [text(words)] }));
const link = fc.tuple(url, lineOfText).map(([to, words]): Inline => ({ type: 'link', url: to, children: [text(words)] }));

const mark = fc.oneof(code, image, emphasis, link);

const inlines: fc.Arbitrary<Inline[]> = fc
  .tuple(textOfLines, fc.array(mark, { maxLength: 2 }), fc.array(textOfLines, { minLength: 1, maxLength: 2 }), fc.boolean())
  .map(([first, marks, texts, flag]) => {
    if (marks.length === 0) return flag ? [text(first), { type: 'break' }, text(texts[0] ?? 'x')] : [text(first)];
    return [text(flag ? first : `${first} `), ...around(marks, texts, flag)];
  });

const paragraph = inlines.map((children): Block => ({ type: 'paragraph', children }));
const heading = fc
  .tuple(fc.constantFrom(3 as const, 4 as const), lineOfText)
  .map(([depth, words]): Block => ({ type: 'heading', depth, children: [text(words)] }));
const fence = fc.array(lineOfText, { maxLength: 3 }).map((lines): Block => ({ type: 'code', value: lines.join('\n') }));

const item = fc.tuple(paragraph, fc.option(fc.array(paragraph, { minLength: 1, maxLength: 2 }), { nil: undefined })).map(
  ([first, inner]): ListItem => ({
    type: 'listItem',
    children: inner ? [first, { type: 'list', ordered: false, children: inner.map((block) => ({ type: 'listItem', children: [block] })) }] : [first],
  }),
);

const list = fc
  .tuple(fc.boolean(), fc.integer({ min: 0, max: 9 }), fc.array(item, { minLength: 1, maxLength: 3 }))
  .map(([ordered, start, children]): Block => ({ type: 'list', ordered, ...(ordered && start !== 1 && { start }), children }));

const quote = fc.array(fc.oneof(paragraph, list), { minLength: 1, maxLength: 2 }).map((children): Block => ({ type: 'blockquote', children }));

/** Prose of every form that the language has. */
export const arbitraryProse: fc.Arbitrary<Prose> = fc.array(
  fc.oneof(
    { weight: 4, arbitrary: paragraph },
    { weight: 1, arbitrary: heading },
    { weight: 1, arbitrary: fence },
    { weight: 1, arbitrary: fc.constant<Block>({ type: 'thematicBreak' }) },
    { weight: 2, arbitrary: list },
    { weight: 1, arbitrary: quote },
  ),
  { maxLength: 4 },
);
