import { expect, test } from 'vitest';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { readTree, writeTree } from '../../engine/tree/index.ts';
import { blankTreeText } from './blank-tree.ts';
import { quickFix } from './quick-fix.ts';

const surroundings = { benches: {}, trees: {}, functions: TRADE_FUNCTIONS };
const read = (text: string) => readTree(text, { file: 'trees/new.tree.mdx', surroundings });
const BLANK = blankTreeText('new', 'New tree');

/** The text after the quick fix of the first problem with this code. */
function fixed(text: string, code: string): string {
  const { tree, problems } = read(text);
  const problem = problems.find((one) => one.code === code);
  const fix = problem && quickFix(problem, text, tree);
  if (!fix) throw new Error(`no fix for ${code} among ${problems.map((one) => one.code)}`);
  return fix.text ?? (fix.tree ? writeTree(fix.tree) : '');
}

const codes = (text: string): string[] => read(text).problems.map(({ code }) => code);

test('the blank tree has no problems, and is written as the writer writes it', () => {
  expect(codes(BLANK)).toEqual([]);
  expect(BLANK).toContain('title: New tree\n');
});

test('a misspelled target becomes the one that was meant', () => {
  const broken = BLANK.replace('(#call-the-senior-tech)', '(#call-the-senor-tech)');
  expect(codes(broken)).toContain('missing-target');
  expect(fixed(broken, 'missing-target')).toBe(BLANK);
});

test('a misspelled component and attribute too, though the text is no tree as it stands', () => {
  for (const broken of [BLANK.replace('<Look ', '<Lok '), BLANK.replace('minutes={2}', 'minuts={2}')]) {
    const code = codes(broken).find((one) => one === 'unknown-component' || one === 'unknown-attribute') ?? '';
    expect(fixed(broken, code)).toBe(BLANK);
  }
});

test('a step without a caution gets one', () => {
  const bare = BLANK.replace(/<Caution[\s\S]*?<\/Caution>\n\n/, '');
  expect(codes(fixed(bare, 'no-caution')).filter((code) => code === 'no-caution')).toHaveLength(2);
});

test('bands that leave a gap get “otherwise”, to the handoff', () => {
  const reading = BLANK.replace(
    /<Look[\s\S]*?<\/Next>/,
    '<Reading takes="ac-voltage" across="R to C" />\n\n<Next>\n\n- below 2 V: [Nothing wrong found](#nothing-wrong-found)\n\n</Next>',
  ).replace('try-the-complaint is works', 'try-the-complaint is below 2 V');
  expect(codes(reading)).toEqual(['band-gap']);
  expect(codes(fixed(reading, 'band-gap'))).toEqual([]);
});

test('an ohms reading without OL gets “open”', () => {
  const reading = BLANK.replace(
    /<Look[\s\S]*?<\/Next>/,
    '<Reading takes="resistance" across="R to C" />\n\n<Next>\n\n- below 5 ohm: [Nothing wrong found](#nothing-wrong-found)\n- above 5 ohm: [Nothing wrong found](#nothing-wrong-found)\n\n</Next>',
  ).replace('try-the-complaint is works', 'try-the-complaint is below 5 ohm');
  expect(codes(reading)).toContain('way-on-missing');
  expect(codes(fixed(reading, 'way-on-missing'))).not.toContain('way-on-missing');
});

test('what only the author can know has no fix', () => {
  const broken = BLANK.replace('(#call-the-senior-tech)', '(#pump)');
  const { tree, problems } = read(broken);
  const problem = problems.find(({ code }) => code === 'missing-target');
  expect(problem && quickFix(problem, broken, tree)).toBeUndefined();
});
