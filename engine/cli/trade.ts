import {
  type ComputeProblem,
  compute,
  computeWords,
  dimensionOf,
  type Formula,
  type FormulaFunction,
  type FormulaParameter,
  type FunctionTable,
  formulaWords,
  readFormula,
  signature,
} from '../formula/index.ts';
import { dimensionName, fromSi, showIn, unitOf } from '../quantity/index.ts';
import { failure, type Result, success } from '../result.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import { didYouMean } from '../tree/index.ts';

/** One argument as it was given, and as it was understood: a number in the parameter's unit, or a word. */
export type TradeArgument = { readonly name: string; readonly given: string; readonly value: number | string; readonly unit: string | null };

export type TradeReport = {
  readonly function: string;
  readonly arguments: readonly TradeArgument[];
  /** In `unit`. */
  readonly value: number;
  readonly unit: string;
  /** The value rounded for people, with its unit. */
  readonly text: string;
  readonly source: string;
};

/** What was wrong with a call, in words: one sentence on what, one on the way out. `argument` is named where one is to blame. */
export type TradeTrouble = {
  readonly code: 'unknown-option' | 'unknown-function' | 'wrong-count' | 'cannot-read' | 'wrong-unit' | 'unknown-choice' | ComputeProblem['code'];
  readonly argument: string | null;
  readonly message: string;
  readonly fix: string;
};

export type TradeListing = {
  readonly function: string;
  readonly arguments: readonly { readonly name: string; readonly unit: string | null; readonly choices: readonly string[] | null }[];
  readonly gives: string;
  readonly unit: string;
  readonly source: string;
};

const FUNCTIONS: FunctionTable = TRADE_FUNCTIONS;

// A quantity of an everyday size for each unit that a function asks in, and by name where that is too little.
const EXAMPLES: Readonly<Record<string, string>> = {
  'no-load volts': '27 V',
  '°F': '70 °F',
  ohm: '10 kohm',
  AWG: '18 AWG',
  ft: '100 ft',
  V: '24 V',
  A: '0.5 A',
  VA: '40 VA',
  ft3: '2000 ft2 * 8 ft',
  ACH: '0.5 ACH',
  '%RH': '35 %RH',
  '%': '7 %',
  ppm: '50 ppm',
  'lb/h': '2 lb/h',
  'Btu/(h·ft²·°F)': '0.30 Btu/(h·ft²·°F)',
};

const LIST = 'Run trade without arguments for the list.';

/** Every function, for the list. */
export const tradeListings = (): readonly TradeListing[] =>
  Object.entries(FUNCTIONS).map(([name, { parameters, about, unit, source }]) => ({
    function: name,
    arguments: parameters.map((parameter) => ({
      name: parameter.name,
      unit: parameter.takes === 'quantity' ? parameter.unit : null,
      choices: parameter.takes === 'choice' ? parameter.choices : null,
    })),
    gives: about,
    unit,
    source,
  }));

/** Calls a function of the trade with arguments as typed: `75 °F`, `2000 ft2 * 8 ft`, `type-2`. */
export function callTrade(name: string, given: readonly string[]): Result<TradeReport, TradeTrouble> {
  const option = [name, ...given].find((text) => /^--\D/.test(text));
  if (option !== undefined) return trouble('unknown-option', null, `There is no option “${option}”.`, 'The one option of trade is --json.');
  const fn = Object.hasOwn(FUNCTIONS, name) ? FUNCTIONS[name] : undefined;
  if (!fn) {
    const near = didYouMean(name, Object.keys(FUNCTIONS));
    return trouble('unknown-function', null, `There is no function “${name}”.`, near === undefined ? LIST : `Did you mean ${near}? ${LIST}`);
  }
  if (given.length !== fn.parameters.length) {
    const wants = fn.parameters.length === 1 ? '1 argument' : `${fn.parameters.length} arguments`;
    return trouble(
      'wrong-count',
      null,
      `“${name}” takes ${wants}, not ${given.length}: ${signature(name, fn.parameters)}.`,
      `Write: trade ${name} ${fn.parameters.map(exampleOf).join(' ')}`,
    );
  }
  const read: { readonly si: number | string; readonly argument: TradeArgument }[] = [];
  for (const [i, parameter] of fn.parameters.entries()) {
    const argument = readArgument(parameter, given[i] ?? '');
    if (!argument.ok) return argument;
    read.push(argument.value);
  }
  const result = fn.compute(read.map(({ si }) => si));
  if (!result.ok) return uncomputed(result.problem);
  if (!Number.isFinite(result.value)) return uncomputed({ code: 'no-answer', what: 'a number of a possible size' });
  return success({
    function: name,
    arguments: read.map(({ argument }) => argument),
    ...shown(fn, result.value),
    source: fn.source,
  });
}

function shown({ unit: symbol }: FormulaFunction, si: number): Pick<TradeReport, 'value' | 'unit' | 'text'> {
  const unit = unitOf(symbol);
  if (!unit) return { value: si, unit: symbol, text: `${si} ${symbol}`.trim() };
  return { value: Number(fromSi(si, unit).toPrecision(10)), unit: symbol, text: showIn(si, unit, 4) };
}

function readArgument(
  parameter: FormulaParameter,
  given: string,
): Result<{ readonly si: number | string; readonly argument: TradeArgument }, TradeTrouble> {
  const text = given.trim();
  const { name } = parameter;
  if (parameter.takes !== 'quantity') {
    const choices = parameter.takes === 'choice' ? parameter.choices : [text];
    if (choices.includes(text)) return success({ si: text, argument: { name, given, value: text, unit: null } });
    const near = didYouMean(text, choices);
    const fix = `${near === undefined ? '' : `Did you mean ${near}? `}Write one of: ${choices.join(', ')}.`;
    return trouble('unknown-choice', name, `“${text}” is no ${name}.`, fix);
  }
  const write = `Write ${name} in ${parameter.unit || 'plain numbers'}, such as ${exampleOf(parameter)}.`;
  const formula = readFormula(text);
  if (!formula.ok) return trouble('cannot-read', name, text === '' ? `Nothing stands for ${name}.` : `“${text}” cannot be read as ${name}.`, write);
  const dimension = dimensionOf(formula.value, { names: {}, functions: FUNCTIONS });
  if (!dimension.ok) {
    if (dimension.problem.code === 'unknown-name') return trouble('cannot-read', name, `“${dimension.problem.name}” is no quantity.`, write);
    const { message, fix } = formulaWords(dimension.problem);
    return trouble('cannot-read', name, message, fix);
  }
  // A formula may have 0.35 for a humidity; typed alone it could as well be meant in per cent.
  const bare = isBare(formula.value) && parameter.unit !== '';
  if (bare || dimension.value !== parameter.dimension) {
    const got = bare ? 'a number without a unit' : dimensionName(dimension.value);
    return trouble('wrong-unit', name, `“${text}” is ${got}, where ${name} in ${parameter.unit || 'plain numbers'} is wanted.`, write);
  }
  const value = compute(formula.value, { value: () => undefined, functions: FUNCTIONS });
  if (!value.ok) {
    const { problem } = value;
    if (problem.code === 'not-computable') return uncomputed(problem.why, name);
    const { message, fix } = formulaWords(problem);
    return trouble('cannot-read', name, message, fix);
  }
  const unit = unitOf(parameter.unit);
  const inUnit = unit ? Number(fromSi(value.value, unit).toPrecision(10)) : value.value;
  return success({ si: value.value, argument: { name, given, value: inUnit, unit: parameter.unit } });
}

const isBare = (formula: Formula): boolean => formula.op === 'literal' && formula.unit === '';

/** An argument as it could stand in a shell. */
function exampleOf(parameter: FormulaParameter): string {
  if (parameter.takes === 'choice') return parameter.choices[0] ?? parameter.name;
  if (parameter.takes === 'symbol') return parameter.name;
  return `"${EXAMPLES[parameter.name] ?? EXAMPLES[parameter.unit] ?? `1 ${parameter.unit}`.trim()}"`;
}

function trouble(code: TradeTrouble['code'], argument: string | null, message: string, fix: string): { ok: false; problem: TradeTrouble } {
  return failure({ code, argument, message, fix });
}

function uncomputed(why: ComputeProblem, argument: string | null = null): { ok: false; problem: TradeTrouble } {
  const { message, fix } = computeWords(why);
  return trouble(why.code, argument, message, fix);
}

/** A computed value for people, with what it was computed from. */
export const tradeText = ({ function: name, arguments: given, text, source }: TradeReport): string =>
  `${name}(${given.map((argument) => argument.given.trim()).join(', ')}) = ${text}\n    source: ${source}`;

/** The list for people. */
export const tradeListText = (): string =>
  Object.entries(FUNCTIONS)
    .map(([name, { parameters, about, unit, source }]) => `${signature(name, parameters)}, in ${unit}\n    ${about}\n    source: ${source}`)
    .join('\n');
