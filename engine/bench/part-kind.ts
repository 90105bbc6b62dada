import type { ComputeProblem } from '../formula/index.ts';
import type { DIMENSIONS } from '../quantity/index.ts';
import type { FaultMode } from './becoming.ts';
import type { CircuitBuilder, StampedPart } from './circuit-builder.ts';

export type DimensionName = keyof typeof DIMENSIONS;

/** What a value may be: its dimension, and the range (SI) outside which it is absurd. */
export type ValueRule = { readonly dimension: DimensionName; readonly least: number; readonly most: number };

/** One formula in a part: `key` is what the stamp asks for, `field` and `offset` where it stands in the file. */
export type ValueText = { readonly key: string; readonly field: string; readonly text: string; readonly offset: number; readonly rule: ValueRule };

/** One condition in a part, in the field (or field and name) where it stands. */
export type ConditionText = { readonly key: string; readonly path: readonly string[]; readonly text: string };

/** An end of a part: the node it stands on, and where that is written. `fixed`: no lead and no fault moves it. */
export type End = { readonly node: string; readonly path: readonly (string | number)[]; readonly offset?: number; readonly fixed?: boolean };

/** Values that are each possible and together are not, or a field that another needs. */
export type PartTrouble =
  | { readonly field: string; readonly why: ComputeProblem }
  | { readonly field: string; readonly missing: string }
  | { readonly field: string; readonly expected: string };

/**
 * One kind of part: what its file form holds, and how it stamps itself on a circuit. A part knows nothing of the others.
 * `ends` lists nodes in the order in which the stamp gets them.
 */
export type PartKind<S> = {
  readonly kind: string;
  readonly about: string;
  readonly ends: (spec: S) => readonly End[];
  readonly values: (spec: S) => readonly ValueText[];
  readonly conditions: (spec: S) => readonly ConditionText[];
  /** What `NAME is STATE` may say of it. */
  readonly states: (spec: S) => readonly string[];
  /** The fault modes it has; `grounded`, `to NODE`, `moved from A to B` and `absent` are the same for all that have ends. */
  readonly modes: readonly FaultMode[];
  /** What a changed value is, where it can have one. */
  readonly value: (spec: S) => ValueRule | undefined;
  /** What is wrong with the values of the part taken together. */
  readonly trouble?: (spec: S, values: Readonly<Record<string, number>>) => PartTrouble | undefined;
  readonly stamp: (spec: S, part: StampedPart, circuit: CircuitBuilder) => void;
};

/** A value text for a field that holds one formula; none where the field is absent. */
export function valueIn(field: string, text: string | undefined, rule: ValueRule, key = field): readonly ValueText[] {
  return text === undefined ? [] : [{ key, field, text, offset: 0, rule }];
}

/** A condition text for a field; none where the field is absent. */
export function conditionIn(field: string, text: string | undefined): readonly ConditionText[] {
  return text === undefined ? [] : [{ key: field, path: [field], text }];
}

/** The two ends of `between`. */
export function endsBetween(between: readonly [string, string]): readonly End[] {
  return [
    { node: between[0], path: ['between', 0] },
    { node: between[1], path: ['between', 1] },
  ];
}

/** Cuts `A to B` at its one ` to `; both halves with where they stand. Undefined where there is none. */
export function cutAtTo(text: string): { readonly left: string; readonly right: string; readonly offset: number } | undefined {
  const match = /^(.*\S)(\s+to\s+)(\S.*)$/.exec(text);
  if (!match?.[1] || !match[2] || !match[3]) return undefined;
  return { left: match[1], right: match[3], offset: match[1].length + match[2].length };
}

/** Ranges that several kinds share, SI. Generous: only what no control circuit can have is absurd. */
export const RULES = {
  ohms: { dimension: 'resistance', least: 1e-6, most: 1e10 },
  volts: { dimension: 'voltage', least: 0, most: 1000 },
  ratedVolts: { dimension: 'voltage', least: 0.1, most: 1000 },
  va: { dimension: 'power', least: 1e-3, most: 1e5 },
  length: { dimension: 'length', least: 0, most: 3048 },
  gauge: { dimension: 'wire gauge', least: 0, most: 40 },
  temperature: { dimension: 'temperature', least: 200, most: 600 },
  share: { dimension: 'number', least: 0.01, most: 2 },
  capacitance: { dimension: 'capacitance', least: 1e-13, most: 1 },
  inductance: { dimension: 'inductance', least: 1e-7, most: 1e4 },
  amps: { dimension: 'current', least: 1e-9, most: 1000 },
} as const satisfies Record<string, ValueRule>;
