import { failure, type Result, success } from '../result.ts';
import type { MatrixSetUps, TestMatrix } from './test-matrix.ts';

/** What is wrong with a matrix file. Lines count from 1. */
export type MatrixProblem =
  | { readonly code: 'no-header'; readonly line: number }
  | { readonly code: 'no-cost-row' }
  | { readonly code: 'no-states' }
  | { readonly code: 'too-big'; readonly what: 'states' | 'tests' | 'outcomes'; readonly count: number; readonly most: number }
  | { readonly code: 'row-length'; readonly line: number; readonly cells: number; readonly wants: number }
  | { readonly code: 'twice'; readonly line: number; readonly what: 'state' | 'test'; readonly name: string }
  | {
      readonly code: 'not-a-number';
      readonly line: number;
      readonly column: number;
      readonly text: string;
      readonly what: 'prior' | 'cost' | 'switch';
    }
  | { readonly code: 'no-prior'; readonly sum: number }
  | { readonly code: 'unknown-row'; readonly line: number; readonly name: string }
  | { readonly code: 'unknown-set-up'; readonly line: number; readonly name: string; readonly known: readonly string[] }
  | { readonly code: 'no-switch'; readonly from: string; readonly to: string };

const MOST = { states: 500, tests: 1000, outcomes: 50 } as const;

type Row = { readonly line: number; readonly cells: readonly string[] };

/**
 * Reads a matrix: a head `state,prior,TEST…`, a row `#cost,,MINUTES…`, a row for each state with its prior and what each test shows in it (any
 * words). Where the circuit has to stand differently for some tests: `#wants,,SET-UP…` (empty where any will do) and `#switch,FROM,TO,MINUTES`
 * rows; it is found in the first set-up that a `#switch` names. Priors are scaled to sum 1.
 */
export function readMatrix(csv: string): Result<TestMatrix, MatrixProblem> {
  const rows = csv
    .split(/\r?\n/)
    .map((text, i): Row => ({ line: i + 1, cells: text.split(',').map((cell) => cell.trim()) }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''));
  const [head, ...rest] = rows;
  if (head?.cells[0]?.toLowerCase() !== 'state' || head.cells[1]?.toLowerCase() !== 'prior' || head.cells.length < 3)
    return failure({ code: 'no-header', line: head?.line ?? 1 });
  const tests = head.cells.slice(2);
  const marked = rest.filter(({ cells }) => cells[0]?.startsWith('#'));
  const states = rest.filter(({ cells }) => !cells[0]?.startsWith('#'));
  const stranger = marked.find(({ cells }) => !['#cost', '#wants', '#switch'].includes(cells[0] ?? ''));
  if (stranger) return failure({ code: 'unknown-row', line: stranger.line, name: stranger.cells[0] ?? '' });
  const cost = marked.find(({ cells }) => cells[0] === '#cost');
  if (!cost) return failure({ code: 'no-cost-row' });
  if (states.length === 0) return failure({ code: 'no-states' });
  if (states.length > MOST.states) return failure({ code: 'too-big', what: 'states', count: states.length, most: MOST.states });
  if (tests.length > MOST.tests) return failure({ code: 'too-big', what: 'tests', count: tests.length, most: MOST.tests });
  for (const { line, cells } of [cost, ...states])
    if (cells.length !== head.cells.length) return failure({ code: 'row-length', line, cells: cells.length, wants: head.cells.length });
  const twice =
    repeated(tests.map((name) => ({ line: head.line, name }))) ?? repeated(states.map(({ line, cells }) => ({ line, name: cells[0] ?? '' })));
  if (twice) return failure({ code: 'twice', line: twice.line, what: twice.line === head.line ? 'test' : 'state', name: twice.name });

  const costs = numbers(cost, 2, 'cost');
  if (!costs.ok) return costs;
  const priors: number[] = [];
  for (const row of states) {
    const prior = numbers({ line: row.line, cells: row.cells.slice(0, 2) }, 1, 'prior');
    if (!prior.ok) return prior;
    priors.push(...prior.value);
  }
  const sum = priors.reduce((a, b) => a + b, 0);
  if (!(sum > 0)) return failure({ code: 'no-prior', sum });
  const outcomes = tests.map((_, test) => outcomeNumbers(states.map(({ cells }) => cells[test + 2] ?? '')));
  const many = outcomes.find((row) => Math.max(...row) >= MOST.outcomes);
  if (many) return failure({ code: 'too-big', what: 'outcomes', count: Math.max(...many) + 1, most: MOST.outcomes });
  const setUps = readSetUps(marked, tests.length);
  if (!setUps.ok) return setUps;
  return success({
    states: states.map(({ cells }) => cells[0] ?? ''),
    priors: Float64Array.from(priors, (prior) => prior / sum),
    tests,
    costs: Float64Array.from(costs.value),
    outcomes,
    ...(setUps.value && { setUps: setUps.value }),
  });
}

function repeated(names: readonly { readonly line: number; readonly name: string }[]): { readonly line: number; readonly name: string } | undefined {
  const seen = new Set<string>();
  return names.find(({ name }) => seen.size === seen.add(name).size);
}

/** The cells of a row from a column on, as numbers that are 0 or more. */
function numbers({ line, cells }: Row, from: number, what: 'prior' | 'cost' | 'switch'): Result<readonly number[], MatrixProblem> {
  const found: number[] = [];
  for (const [i, text] of cells.entries()) {
    if (i < from) continue;
    const value = text === '' ? Number.NaN : Number(text);
    if (!Number.isFinite(value) || value < 0) return failure({ code: 'not-a-number', line, column: i + 1, text, what });
    found.push(value);
  }
  return success(found);
}

// Outcomes are words; they are numbered in the order that they are met in.
function outcomeNumbers(shown: readonly string[]): Uint8Array {
  const known = new Map<string, number>();
  return Uint8Array.from(shown, (text) => {
    const number = known.get(text) ?? Math.min(known.size, 255);
    known.set(text, number);
    return number;
  });
}

function readSetUps(marked: readonly Row[], tests: number): Result<MatrixSetUps | undefined, MatrixProblem> {
  const switches = marked.filter(({ cells }) => cells[0] === '#switch');
  const wanted = marked.find(({ cells }) => cells[0] === '#wants');
  if (switches.length === 0 && !wanted) return success(undefined);
  const names = [...new Set(switches.flatMap(({ cells }) => [cells[1] ?? '', cells[2] ?? '']))];
  const minutes = new Float64Array(names.length ** 2).fill(Number.NaN);
  for (let i = 0; i < names.length; i += 1) minutes[i * names.length + i] = 0;
  for (const { line, cells } of switches) {
    const cost = numbers({ line, cells: cells.slice(0, 4) }, 3, 'switch');
    if (!cost.ok) return cost;
    if (cost.value.length === 0) return failure({ code: 'row-length', line, cells: cells.length, wants: 4 });
    minutes[names.indexOf(cells[1] ?? '') * names.length + names.indexOf(cells[2] ?? '')] = cost.value[0] ?? 0;
  }
  const gap = minutes.findIndex(Number.isNaN);
  if (gap >= 0) return failure({ code: 'no-switch', from: names[Math.floor(gap / names.length)] ?? '', to: names[gap % names.length] ?? '' });
  const wants = new Int32Array(tests).fill(-1);
  for (let test = 0; test < tests; test += 1) {
    const name = wanted?.cells[test + 2] ?? '';
    if (name === '') continue;
    const at = names.indexOf(name);
    if (at < 0) return failure({ code: 'unknown-set-up', line: wanted?.line ?? 0, name, known: names });
    wants[test] = at;
  }
  return success({ names, minutes, wants });
}
