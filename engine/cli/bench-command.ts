import {
  asFound,
  type Bench,
  type Complex,
  type MeterPlace,
  measure,
  meterRefusalWords,
  nodeVolts,
  prepare,
  readBench,
  type Situation,
  type Solved,
  signsOf,
  solve,
  unsolvedWords,
  withFacts,
  withFault,
  withJumper,
  withLifted,
  withSetting,
} from '../bench/index.ts';
import { QUANTITY_KIND_NAMES, readTypedValue, typedValueWords } from '../quantity/index.ts';
import { failure, type Result, success } from '../result.ts';
import { problemLines } from './check.ts';
import { readTextFile } from './read-text-file.ts';

export type BenchOptions = {
  readonly set?: readonly string[];
  readonly fact?: readonly string[];
  readonly fault?: readonly string[];
  readonly jumper?: readonly string[];
  readonly lift?: readonly string[];
  readonly measure?: string;
  readonly low?: boolean;
};

export type BenchReport = {
  readonly reading: { readonly value: number | 'open'; readonly unit: string; readonly shown: string } | null;
  readonly nodes: Readonly<Record<string, Complex>>;
  readonly signs: Readonly<Record<string, boolean>>;
  /** False where the circuit never settles or has no solution; then there are no nodes. */
  readonly settled: boolean;
  readonly message?: string;
};

/** Reads a bench file, does what the options say to a copy of it, solves it and takes the reading asked for. */
export function runBench(file: string, options: BenchOptions): Result<BenchReport, string> {
  const text = readTextFile(file, 'bench');
  if (!text.ok) return text;
  const { bench, problems } = readBench(text.value, { file });
  if (!bench || problems.some((p) => p.severity === 'error'))
    return failure(`${file} cannot be solved until it is put right.\n${problemLines(problems)}`);
  const situation = edited(bench, options);
  if (!situation.ok) return situation;
  const solved = solve(prepare(bench), situation.value);
  if (!solved.ok) {
    const { message, fix } = unsolvedWords(solved);
    if (solved.reason === 'unknown-name' || solved.reason === 'no-value') return failure(`${message} ${fix}`);
    return success({ reading: null, nodes: {}, signs: {}, settled: false, message: `${message} ${fix}` });
  }
  const reading = options.measure === undefined ? success(null) : readingOf(solved, options.measure, options.low ?? false);
  if (!reading.ok) return reading;
  return success({ reading: reading.value, nodes: nodeVolts(solved), signs: signsOf(solved), settled: true });
}

function edited(bench: Bench, options: BenchOptions): Result<Situation, string> {
  let situation = asFound(bench);
  for (const text of options.set ?? []) {
    const [setting = '', state = ''] = text.split('=');
    situation = withSetting(situation, setting.trim(), state.trim());
  }
  for (const text of options.fact ?? []) {
    const [name = '', typed = ''] = text.split('=').map((part) => part.trim());
    const fact = Object.hasOwn(bench.facts, name) ? bench.facts[name] : undefined;
    if (!fact) return failure(`This bench has no fact “${name}”. It has: ${Object.keys(bench.facts).join(', ') || 'none'}.`);
    const value = readTypedValue(typed, fact.quantity, unitIn(fact.usual));
    if (!value.ok) {
      const { message, fix } = typedValueWords(value.problem);
      return failure(`${name}: ${message} ${fix}`);
    }
    if (value.value.si !== 'open') situation = withFacts(situation, { [name]: value.value.si });
  }
  for (const fault of options.fault ?? []) situation = withFault(situation, fault);
  for (const text of options.jumper ?? []) {
    const [a, b, more] = text.split(',').map((point) => point.trim());
    if (!a || !b || more !== undefined) return failure(`A jumper joins two points: --jumper K1,K2, not “${text}”.`);
    situation = withJumper(situation, a, b);
  }
  for (const lead of options.lift ?? []) situation = withLifted(situation, lead);
  return success(situation);
}

const unitIn = (text: string): string | undefined => /^\s*[-+.\d]+\s*(\S.*)$/.exec(text)?.[1];

/** `ac-voltage:R,C` across two points, `dc-current:flame-probe` at a place. */
function readingOf(solved: Solved, text: string, low: boolean): Result<NonNullable<BenchReport['reading']>, string> {
  const [kind = '', place = ''] = text.split(':').map((part) => part.trim());
  const quantity = QUANTITY_KIND_NAMES.find((name) => name === kind);
  if (!quantity || place === '')
    return failure(`“${text}” is no reading. Write it as ac-voltage:R,C or dc-current:PLACE; kinds: ${QUANTITY_KIND_NAMES.slice(0, 9).join(', ')}.`);
  const [red, black] = place.split(',').map((point) => point.trim());
  const where: MeterPlace = red !== undefined && black !== undefined ? { across: [red, black] } : { at: place };
  const measured = measure(solved, quantity, where, low ? { input: 'low' } : {});
  if (!measured.ok) {
    const { message, fix } = meterRefusalWords(measured);
    return failure(`${message} ${fix}`);
  }
  return success({ value: measured.value, unit: measured.unit, shown: measured.shown });
}
