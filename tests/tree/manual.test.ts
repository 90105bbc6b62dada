import { describe, expect, it } from 'vitest';
import { signature } from '../../engine/formula/index.ts';
import { QUANTITY_KINDS, UNIT_SPELLINGS, unitOf } from '../../engine/quantity/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { COMPONENTS } from '../../engine/tree/components.ts';
import {
  ACTION_FORMS,
  CAUTION_SUBJECTS,
  PROBLEM_CODE_NAMES,
  PROBLEM_CODES,
  type ProblemCode,
  readTree,
  SIGNALS,
  writeTree,
} from '../../engine/tree/index.ts';
import { EXAMPLES, fences, MANUAL, MANUAL_TREE } from './manual.ts';
import { SAMPLE_SURROUNDINGS } from './sample-surroundings.ts';

const options = { file: 'no-water-at-the-pad.tree.mdx', surroundings: SAMPLE_SURROUNDINGS };
const problemsOf = (text: string) => readTree(text, options).problems;

/** Found by searching paths and running benches, which these tests do not: tests/proof/proof-manual.test.ts runs their examples. */
const onBenches = (code: ProblemCode): boolean =>
  PROBLEM_CODES[code].group === 'proof' || (PROBLEM_CODES[code].group === 'safety' && code !== 'no-caution' && code !== 'no-recheck');

describe('the manual', () => {
  it('shows a whole tree with nothing wrong with it, in the form that it is saved in', () => {
    const { tree, problems } = readTree(MANUAL_TREE, options);
    expect(problems).toEqual([]);
    expect(tree && writeTree(tree)).toBe(MANUAL_TREE);
  });

  it.each(EXAMPLES.filter((example) => example.kind === 'bad'))('has a bad example of $code on line $line that is just that', ({ code, text }) => {
    expect([...new Set(problemsOf(text).map((problem) => problem.code))]).toEqual([code]);
  });

  it.each(EXAMPLES.filter((example) => example.kind === 'good'))('has a good example of $code on line $line with nothing wrong', ({ text }) => {
    expect(problemsOf(text)).toEqual([]);
  });

  it.each(PROBLEM_CODE_NAMES.filter((code) => !onBenches(code)))('has a bad and a good example of %s', (code) => {
    const kinds = EXAMPLES.filter((example) => example.code === code).map((example) => example.kind);
    expect(kinds).toContain('bad');
    expect(kinds).toContain('good');
  });

  it.each(PROBLEM_CODE_NAMES.filter(onBenches))('tells of %s', (code) => {
    expect(MANUAL).toContain(`\`${code}\``);
  });

  it('marks every example so that some test runs it', () => {
    const marks = fences().flatMap(({ info }) => (info.startsWith('mdx') ? [info] : []));
    expect(marks.filter((info) => !/^mdx (tree|(bad|good)( whole)?|(bad|good) bench( also [a-z, -]+)?)$/.test(info))).toEqual([]);
  });

  it('has no example of a code that there is not', () => {
    expect(EXAMPLES.map((example) => example.code).filter((code) => !(code in PROBLEM_CODES))).toEqual([]);
  });

  it('names every component and attribute', () => {
    for (const [name, { attributes }] of Object.entries(COMPONENTS)) {
      expect(MANUAL).toContain(`<${name}`);
      for (const attribute of attributes) expect(MANUAL).toMatch(new RegExp(`\\| \`${attribute}\` \\||${attribute}="`));
    }
  });

  it('names every signal word, subject, action, unit, kind of reading and function', () => {
    const words = [...SIGNALS, ...CAUTION_SUBJECTS, ...Object.keys(QUANTITY_KINDS)];
    const units = new Set(UNIT_SPELLINGS.map((spelling) => unitOf(spelling)?.symbol ?? spelling));
    const functions = Object.entries(TRADE_FUNCTIONS).map(([name, fn]) => signature(name, fn.parameters));
    for (const word of [...words, ...units, ...functions]) expect(MANUAL).toContain(`\`${word}\``);
    expect(ACTION_FORMS).toHaveLength(MANUAL.split('| action | what it does |')[1]?.split('\n\n')[0]?.split('\n').slice(2).length ?? 0);
  });

  it('has a heading for each entry of its contents', () => {
    const anchors = new Set(
      [...MANUAL.matchAll(/^#+ (.+)$/gm)].map((m) =>
        (m[1] ?? '')
          .toLowerCase()
          .replace(/[^a-z0-9 -]/g, '')
          .replace(/ /g, '-'),
      ),
    );
    for (const [, anchor = ''] of MANUAL.split('## A whole tree')[0]?.matchAll(/\(#([a-z-]+)\)/g) ?? []) expect(anchors).toContain(anchor);
  });
});
