import fc from 'fast-check';
import { expect, test } from 'vitest';
import { asFound, measure, namesOf, prepare, readBench, signsOf, solve, withFault, worstCase } from '../../engine/bench/index.ts';
import { sampleBenches, shippedBenches } from './bench-files.ts';

const SOURCES = [...sampleBenches(), ...shippedBenches()].map(({ source }) => source);

// What hands and hostile tools do to a file: pieces lost, doubled, swapped with others of the file, and marks that mean something to a parser.
const SCRAPS = [
  '{',
  '}',
  '[',
  ']',
  ':',
  ',',
  '"',
  "'",
  '#',
  '&a',
  '*a',
  '!!',
  '<<: ',
  '\n',
  '\t',
  '---\n',
  '|',
  '>',
  '%',
  '(',
  ')))',
  'is',
  'and',
  'above',
  '-1',
  '0',
  '1e400',
  'NaN',
  'OL',
  '0 ohm',
  '-3 V',
  'null',
  '~',
  'true',
  '__proto__',
  'constructor',
  'ground',
  ' to ',
  ' on ',
  'moved from R to C',
  'volts(R, C)',
  'x'.repeat(300),
  '\u0000',
  '\ud800',
  '😀',
];

type Edit = {
  readonly at: number;
  readonly length: number;
  readonly with: { readonly scrap: number } | { readonly from: number; readonly size: number } | null;
};

// Not fc.double: it prefers tiny numbers, which would all be the head of the file.
const position = fc.nat(1_000_000).map((millionths) => millionths / 1_000_001);

const edit: fc.Arbitrary<Edit> = fc.record({
  at: position,
  length: fc.oneof(fc.constant(0), fc.nat(6), fc.nat(120)),
  with: fc.oneof(fc.constant(null), fc.record({ scrap: fc.nat(SCRAPS.length - 1) }), fc.record({ from: position, size: fc.nat(80) })),
});

function mutated(source: string, edits: readonly Edit[]): string {
  return edits.reduce((text, { at, length, with: put }) => {
    const start = Math.floor(at * text.length);
    const piece = put === null ? '' : 'scrap' in put ? (SCRAPS[put.scrap] ?? '') : text.slice(Math.floor(put.from * text.length)).slice(0, put.size);
    return text.slice(0, start) + piece + text.slice(start + length);
  }, source);
}

/** Reads a file and, where it gives a bench without errors, does with it what the tools do. Anything thrown fails the test. */
function exercise(text: string): 'unreadable' | 'problems' | 'sound' {
  const { bench, problems, places } = readBench(text, { file: 'fuzz.bench.yaml' });
  for (const problem of problems) {
    expect(problem.line).toBeGreaterThan(0);
    expect(problem.column).toBeGreaterThan(0);
    expect(problem.message.length).toBeGreaterThan(0);
    expect(problem.fix.length).toBeGreaterThan(0);
  }
  places(['parts', 'nowhere', 'at all']);
  if (!bench) {
    expect(problems.length).toBeGreaterThan(0);
    return 'unreadable';
  }
  namesOf(bench);
  if (problems.some(({ severity }) => severity === 'error')) return 'problems';
  const prepared = prepare(bench);
  const start = asFound(bench);
  for (const situation of [
    start,
    ...Object.keys(bench.faults)
      .slice(0, 2)
      .map((fault) => withFault(start, fault)),
  ]) {
    const solved = solve(prepared, situation);
    if (!solved.ok) continue;
    signsOf(solved);
    const [a = 'ground', b = 'ground'] = bench.terminals;
    for (const quantity of ['ac-voltage', 'dc-voltage', 'resistance', 'capacitance', 'frequency'] as const)
      measure(solved, quantity, { across: [a, b] });
  }
  const worst = worstCase(prepared, start);
  if (worst.ok) for (const terminal of bench.terminals.slice(0, 3)) worst.at(terminal);
  return 'sound';
}

test('three thousand mutated bench files give problems, never an exception or a hang', { timeout: 120_000 }, () => {
  const seen = { unreadable: 0, problems: 0, sound: 0 };
  fc.assert(
    fc.property(fc.nat(SOURCES.length - 1), fc.array(edit, { minLength: 1, maxLength: 4 }), (which, edits) => {
      seen[exercise(mutated(SOURCES[which] ?? '', edits))] += 1;
    }),
    { numRuns: 3000, seed: 20_240_607 },
  );
  // The mutations reach every stage, or the test would prove little.
  expect(Math.min(seen.unreadable, seen.problems, seen.sound)).toBeGreaterThan(100);
});

test.each([
  ['nothing', ''],
  ['a scalar', '42'],
  ['a list', '- a\n- b'],
  ['brackets without end', '['.repeat(100_000)],
  ['maps without end', '{a: '.repeat(50_000)],
  [
    'a bomb of aliases',
    `a: &a [x,x]\n${Array.from({ length: 40 }, (_, i) => `b${i}: &b${i} [*${i ? `b${i - 1}` : 'a'}, *${i ? `b${i - 1}` : 'a'}]`).join('\n')}`,
  ],
  ['a prototype', '__proto__: { terminals: [R] }\ntitle: x\nterminals: [R]\nparts: { __proto__: { kind: state, is: a } }'],
  ['half a megabyte', `title: x\nabout: ${'y'.repeat(500_000)}`],
  ['a condition of brackets', `title: x\nterminals: [R]\nparts: { a: { kind: contact, between: [R, C], closed-when: "${'('.repeat(5000)}" } }`],
])('%s is refused in words', (_what, text) => {
  expect(exercise(text)).toBe('unreadable');
});

test('too many parts, settings and characters are told as such', () => {
  const many = Array.from({ length: 201 }, (_, i) => `  r${i}: { kind: resistor, between: [R, C], ohms: 1 ohm }`).join('\n');
  const { problems } = readBench(`title: x\nterminals: [R, C]\nparts:\n${many}\n`, { file: 'x' });
  expect(problems.map(({ code }) => code)).toEqual(['too-big']);
  expect(readBench(`#${'x'.repeat(500_000)}`, { file: 'x' }).problems.map(({ code }) => code)).toEqual(['too-big']);
});
