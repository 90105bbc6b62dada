import { describe, expect, it } from 'vitest';
import { readTree } from '../../engine/tree/index.ts';
import { UNDAMAGED } from './damaged-file.ts';
import { SAMPLE_SURROUNDINGS } from './sample-surroundings.ts';

const read = (text: string) => readTree(text, { file: 'no-heat.tree.mdx', surroundings: SAMPLE_SURROUNDINGS });
const codes = (text: string) => [...new Set(read(text).problems.map((problem) => problem.code))];

const FRONT = '---\ntitle: a\ncomplaint: b\nrecheck: a\n---\n\n';
const filled = (piece: string, length: number): string => piece.repeat(Math.ceil(length / piece.length)).slice(0, length);

const nested = (open: string, depth: number, close: string): string => `${open.repeat(depth)}x${close.repeat(depth)}`;

// What makes readers of Markdown, JSX or YAML slow or run out of stack: each as long as the reader lets it be.
const BODIES: Readonly<Record<string, string>> = {
  brackets: filled('[', 7900),
  'links that are not closed': filled('[a](', 7900),
  'references that lead nowhere': filled('[a][b] ', 7900),
  stars: filled('*a **b _c ', 7900),
  ticks: Array.from({ length: 120 }, (_, i) => `${'`'.repeat(i + 1)} a`).join(''),
  braces: filled('{', 7900),
  'braces in pairs': filled('{}', 7900),
  'tags in tags': filled('<Caution>\n\n', 50_000),
  'tags in tags, each closed': `## a\n\n<Look />\n\n<Next>\n\n${nested('<Caution>\n\n', 5000, '\n\n</Caution>\n\n')}</Next>\n`,
  'tags in tags beside a brace': `## a\n\n${nested('<Caution>\n\n', 5000, '\n\n</Caution>\n\n')}## b\n\n{ x\n`,
  'tags in tags in a title': `## ${nested('<a>', 1000, '</a>')}\n`,
  'tags that are not closed': filled('<a ', 7900),
  'attributes without end': `<Reading ${filled('a="b" ', 7000)}/>`,
  'quotations in quotations': filled('>', 7900),
  'lists in lists': filled('- ', 7900),
  'lists and quotations': filled('> - ', 7900),
  'lists by indent': Array.from({ length: 600 }, (_, i) => `${' '.repeat(i * 2)}- a\n`).join('\n'),
  'emphasis in emphasis': `${filled('*a **b ', 3900)}${filled('c** d* ', 3900)}`,
  references: filled('&#x41;&amp;', 7900),
  definitions: filled('[a]: b\n\n', 50_000),
  headings: filled('## a\n\n', 100_000),
  fences: filled('```\na\n```\n\n', 100_000),
  'blocks of brackets': filled(`${filled('[a](', 7900)}\n\n`, 100_000),
  'ways without end': `## a\n\n<Look />\n\n<Next>\n\n${filled('- a: [b](#c)\n', 7900)}\n\n</Next>\n`,
};

const FRONTS: Readonly<Record<string, string>> = {
  'lists in lists': `title: ${'['.repeat(40_000)}`,
  'maps in maps': `title: ${'{a: '.repeat(20_000)}`,
  'lists by hyphen': '- '.repeat(40_000),
  keys: Array.from({ length: 5000 }, (_, i) => `k${i}: v`).join('\n'),
  'anchors on anchors': `a: &a [x]\n${Array.from({ length: 2000 }, (_, i) => `b${i}: [*a, *a]`).join('\n')}`,
  'keys by question mark': '? '.repeat(40_000),
  'a name of the language under it': '__proto__: { title: a }\ntitle: a\ncomplaint: b\nconstructor: x',
};

describe('a file made to do harm', () => {
  it.each(Object.keys(BODIES))(
    '%s: is answered with problems',
    (name) => {
      const { tree, problems } = read(`${FRONT}${BODIES[name]}`);
      expect(tree).toBeUndefined();
      expect(problems.length).toBeGreaterThan(0);
    },
    120_000,
  );

  it.each(Object.keys(FRONTS))(
    '%s in the front matter: is answered with problems',
    (name) => {
      const { tree, problems } = read(`---\n${FRONTS[name]}\n---\n\n## a\n\n<Handoff to="b" />\n`);
      expect(tree).toBeUndefined();
      expect(problems.length).toBeGreaterThan(0);
    },
    120_000,
  );

  it('is not read at all when it is too large', () => {
    expect(codes(UNDAMAGED.padEnd(1_000_001))).toEqual(['not-readable']);
  });

  it('is not parsed when a block of it goes on too long', () => {
    expect(codes(`${FRONT}${filled('word ', 9000)}`)).toEqual(['not-readable']);
  });

  it('is not read when it is no text', () => {
    const bytes = new Uint8Array(5000).map((_, i) => (i * 37) % 256);
    const { tree, problems } = read(new TextDecoder().decode(bytes));
    expect(tree).toBeUndefined();
    expect(problems.map((problem) => problem.code)).toContain('not-readable');
  });

  it('is not read when it is UTF-16', () => {
    const { problems } = read([...UNDAMAGED].join('\u0000'));
    expect(problems.map((problem) => problem.code)).toContain('not-readable');
  });

  it('has nothing that reaches what objects inherit', () => {
    const named = UNDAMAGED.replace('## Look', '## Constructor')
      .replaceAll('(#look)', '(#constructor)')
      .replace('recheck: look', 'recheck: constructor');
    expect(read(named).problems).toEqual([]);
    expect(codes(UNDAMAGED.replace('heat-call on', 'constructor on'))).toEqual(['unknown-setting']);
    expect(codes(UNDAMAGED.replace('85 % of rated', '85 % of constructor'))).toEqual(['unknown-fact']);
    expect(codes(UNDAMAGED.replace('85 % of rated', 'constructor(1 V)'))).toEqual(['bad-band']);
    expect(codes(UNDAMAGED.replace('benches: [own-transformer]', 'benches: [constructor]'))).toContain('unknown-bench');
    expect(codes(UNDAMAGED.replace('(#open)', '(constructor.tree.mdx#open)'))).toEqual(['missing-target']);
  });
});
