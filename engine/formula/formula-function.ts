import type { Dimension } from '../quantity/index.ts';
import type { Result } from '../result.ts';
import type { ComputeProblem } from './formula.ts';

/** One parameter: a quantity, one of a list of words, or the name of a terminal or part. */
export type FormulaParameter =
  | { readonly name: string; readonly takes: 'quantity'; readonly dimension: Dimension; readonly unit: string }
  | { readonly name: string; readonly takes: 'choice'; readonly choices: readonly string[] }
  | { readonly name: string; readonly takes: 'symbol' };

/** A function that formulas may call. Arguments arrive in SI, words as they stand. */
export type FormulaFunction = {
  readonly parameters: readonly FormulaParameter[];
  readonly result: Dimension;
  /** The unit in which the result is shown. */
  readonly unit: string;
  readonly about: string;
  readonly source: string;
  readonly compute: (args: readonly (number | string)[]) => Result<number, ComputeProblem>;
};

export type FunctionTable = Readonly<Record<string, FormulaFunction>>;
