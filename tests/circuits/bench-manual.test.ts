import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import { BENCH_CODES } from '../../engine/bench/bench-problem.ts';
import { asFound, benchJsonSchema, measure, prepare, readBench, solve } from '../../engine/bench/index.ts';

const MANUAL = readFileSync(new URL('../../trees/benches/README.md', import.meta.url), 'utf8');

type Example = { readonly kind: 'bad' | 'good'; readonly whole: boolean; readonly text: string };

const blocks = (text: string): readonly { readonly info: string; readonly text: string }[] =>
  [...text.matchAll(/^```yaml ([a-z ]+)\n(.*?)^```$/gms)].map((match) => ({ info: match[1] ?? '', text: match[2] ?? '' }));

const WHOLE = blocks(MANUAL)[0]?.text ?? '';

const sections = MANUAL.slice(MANUAL.indexOf('## Problem codes'))
  .split(/^### /m)
  .slice(1)
  .map((section) => ({
    code: /^[a-z-]+/.exec(section)?.[0] ?? '',
    warning: section.startsWith(`${/^[a-z-]+/.exec(section)?.[0]} (warning)`),
    examples: blocks(section).map(
      ({ info, text }): Example => ({ kind: info.includes('good') ? 'good' : 'bad', whole: info.includes('whole'), text }),
    ),
  }));

type Tree = { [name: string]: unknown };
const isTree = (value: unknown): value is Tree => typeof value === 'object' && value !== null && !Array.isArray(value);

/** The whole bench with an example's lines in place of its own: names are merged two levels down, a part or fault is taken as it stands. */
function merged(text: string): string {
  const base: unknown = parse(WHOLE);
  const change: unknown = parse(text);
  if (!isTree(base) || !isTree(change)) throw new Error('an example must be a map');
  const groups = Object.entries(change).map(([group, value]) => {
    const own = base[group];
    return [group, isTree(value) && isTree(own) ? { ...own, ...value } : value];
  });
  return stringify({ ...base, ...Object.fromEntries(groups) });
}

const problemsOf = (example: Example) => readBench(example.whole ? example.text : merged(example.text), { file: 'example.bench.yaml' }).problems;

test('the whole bench is sound', () => {
  expect(readBench(WHOLE, { file: 'whole.bench.yaml' }).problems).toEqual([]);
});

test('every code is explained once', () => {
  expect(sections.map(({ code }) => code).sort()).toEqual([...BENCH_CODES].sort());
});

// No example can be printed: one needs four hundred thousand characters, the other is a guard behind the checks. Their own tests have them.
const WITHOUT_EXAMPLE = ['too-big', 'no-solution'];

describe.each(sections.filter(({ code }) => !WITHOUT_EXAMPLE.includes(code)))('$code', ({ code, warning, examples }) => {
  test('its bad example has it, and its good one has no problem', () => {
    const bad = examples.filter(({ kind }) => kind === 'bad');
    const good = examples.filter(({ kind }) => kind === 'good');
    expect(bad.length).toBeGreaterThan(0);
    if (code !== 'not-readable') expect(good.length).toBeGreaterThan(0);
    for (const example of bad) {
      const found = problemsOf(example).filter((problem) => problem.code === code);
      expect(found.length, example.text).toBeGreaterThan(0);
      expect(found[0]?.severity).toBe(warning ? 'warning' : 'error');
    }
    for (const example of good) expect(problemsOf(example), example.text).toEqual([]);
  });
});

test('the reading worked by hand is what the bench shows', () => {
  const { bench } = readBench(WHOLE, { file: 'whole.bench.yaml' });
  if (!bench) throw new Error('no bench');
  const solved = solve(prepare(bench), asFound(bench));
  if (!solved.ok) throw new Error(solved.reason);
  const volts = measure(solved, 'ac-voltage', { across: ['R', 'C'] });
  const amps = measure(solved, 'ac-current', { at: 'valve-coil' });
  if (!volts.ok || !amps.ok) throw new Error('no reading');
  const printed = [...MANUAL.matchAll(/\*\*([\d.]+) (V|A)\*\*/g)].map((match) => Number(match[1]));
  expect(printed).toEqual([26.47, 26.5, 0.458]);
  expect(volts.value).toBeCloseTo(26.47, 2);
  expect(volts.shown).toBe('26.5 V');
  expect([volts.low, volts.high]).toEqual([25.935, 27.065]);
  expect(amps.value).toBeCloseTo(0.458, 3);
});

test('the JSON Schema beside the trees is the one that the reader is made of', async () => {
  await expect(`${JSON.stringify(benchJsonSchema(), undefined, 2)}\n`).toMatchFileSnapshot('../../trees/schemas/bench.schema.json');
});
