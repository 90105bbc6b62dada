import type { ComputeProblem } from '../formula/index.ts';
import type { Circuit } from './circuit.ts';
import type { CircuitView } from './circuit-builder.ts';
import type { Field, Method } from './network.ts';
import type { Situation } from './situation.ts';

/** Why a situation has no solution. Data; `unsolvedWords` has the words. */
export type Unsolved =
  | { readonly ok: false; readonly reason: 'chatter'; readonly parts: readonly string[] }
  | { readonly ok: false; readonly reason: 'no-solution'; readonly node: string; readonly why: string }
  | { readonly ok: false; readonly reason: 'no-value'; readonly part: string; readonly field: string; readonly why?: ComputeProblem }
  | { readonly ok: false; readonly reason: 'unknown-name'; readonly what: string; readonly name: string; readonly known: readonly string[] };

/** A settled circuit. */
export type Solved = {
  readonly ok: true;
  readonly situation: Situation;
  readonly circuit: Circuit;
  /** The states of parts, as indices into the words of each. */
  readonly states: Int8Array;
  readonly ac: Field;
  readonly dc: Field;
  readonly view: CircuitView;
  /** How many times the circuit was solved until nothing changed. */
  readonly rounds: number;
  readonly method: Method;
  /** Parts whose order of switching decided how it settled: two that race. */
  readonly race: readonly string[];
};

export type Solution = Solved | Unsolved;

export type Complex = { readonly re: number; readonly im: number };

/** Every node's AC phasor against ground, rms volts, by name. */
export function nodeVolts({ circuit, ac }: Solved): Readonly<Record<string, Complex>> {
  return Object.fromEntries(circuit.prepared.index.nodes.map((name, i) => [name, { re: ac.re[i] ?? 0, im: ac.im[i] ?? 0 }]));
}

/** Every node's DC volts against ground, by name. */
export function nodeDcVolts({ circuit, dc }: Solved): Readonly<Record<string, number>> {
  return Object.fromEntries(circuit.prepared.index.nodes.map((name, i) => [name, dc.re[i] ?? 0]));
}

/** What can be seen or heard. */
export function signsOf({ circuit, view }: Solved): Readonly<Record<string, boolean>> {
  return Object.fromEntries(circuit.prepared.signs.map(({ name, rule }) => [name, rule(view)]));
}

/** The state of every part that has states, in its own words. */
export function partStates({ circuit, states }: Solved): Readonly<Record<string, string>> {
  const { parts, states: words } = circuit.prepared.index;
  return Object.fromEntries(
    parts.flatMap(({ name }, i) => {
      const known = words.get(name);
      return known ? [[name, known[states[i] ?? 0] ?? '']] : [];
    }),
  );
}
