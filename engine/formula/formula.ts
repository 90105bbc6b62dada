import type { Dimension } from '../quantity/index.ts';

/** Start and end (exclusive) of a piece of the source text, in UTF-16 units. */
export type Span = readonly [start: number, end: number];

export type BinaryOperator = '+' | '-' | '*' | '/';

/** A typed expression: numbers with units, facts, arithmetic, `P % of X`, and functions of the trade. */
export type Formula =
  | { readonly op: 'literal'; readonly si: number; readonly written: string; readonly unit: string; readonly dimension: Dimension; readonly at: Span }
  | { readonly op: 'name'; readonly name: string; readonly at: Span }
  | { readonly op: 'call'; readonly name: string; readonly args: readonly Formula[]; readonly at: Span }
  | { readonly op: 'negate'; readonly of: Formula; readonly at: Span }
  | { readonly op: 'percent-of'; readonly percent: string; readonly of: Formula; readonly at: Span }
  | { readonly op: BinaryOperator; readonly left: Formula; readonly right: Formula; readonly at: Span };

/** A yes-or-no expression over settings, part states and readings. */
export type Condition =
  | { readonly op: 'and' | 'or'; readonly terms: readonly Condition[]; readonly at: Span }
  | { readonly op: 'not'; readonly term: Condition; readonly at: Span }
  | { readonly op: 'is'; readonly name: string; readonly state: string; readonly at: Span }
  | { readonly op: 'above' | 'below'; readonly left: Formula; readonly right: Formula; readonly at: Span };

export type FormulaProblem =
  | { readonly code: 'cannot-read'; readonly at: Span; readonly found: string; readonly expected: string }
  | { readonly code: 'unit-not-known'; readonly at: Span; readonly found: string }
  | { readonly code: 'unknown-name'; readonly at: Span; readonly name: string; readonly known: readonly string[] }
  | { readonly code: 'unknown-function'; readonly at: Span; readonly name: string; readonly known: readonly string[] }
  | { readonly code: 'wrong-arguments'; readonly at: Span; readonly name: string; readonly expected: string }
  | { readonly code: 'dimensions-differ'; readonly at: Span; readonly operator: string; readonly left: string; readonly right: string }
  | { readonly code: 'not-arithmetic'; readonly at: Span; readonly operator: string; readonly got: string }
  | { readonly code: 'not-computable'; readonly at: Span; readonly why: ComputeProblem };

/** Why a function of the trade has no answer for its arguments. All numbers in `unit`. */
export type ComputeProblem =
  | {
      readonly code: 'out-of-range';
      readonly what: string;
      readonly value: number;
      readonly from: number;
      readonly to: number;
      readonly unit: string;
    }
  | { readonly code: 'no-answer'; readonly what: string }
  | { readonly code: 'value-missing'; readonly what: string };

/** A condition's names and states are facts of a bench or tree; this is what they may be. */
export type StateNames = Readonly<Record<string, readonly string[]>>;
