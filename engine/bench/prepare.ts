import { compute, readFormula } from '../formula/index.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import { type Becoming, readBecoming } from './becoming.ts';
import type { Bench } from './bench.ts';
import { type BenchIndex, indexBench } from './bench-index.ts';
import type { CircuitView, Rule } from './circuit-builder.ts';
import { Rules } from './condition-rule.ts';
import { SparseFactor } from './sparse-factor.ts';

type Value = (view: CircuitView) => number;

export type PreparedPart = {
  readonly values: readonly (readonly [key: string, value: Value])[];
  readonly rules: ReadonlyMap<string, Rule>;
};

export type PreparedFault = { readonly part: number; readonly becoming: Becoming; readonly value: Value | undefined };

/**
 * A checked bench made ready to be solved many times: names numbered, formulas and conditions compiled, and the elimination order
 * of each circuit shape kept once it has been worked out.
 */
export type PreparedBench = {
  readonly bench: Bench;
  readonly index: BenchIndex;
  /** Radians per second. */
  readonly omega: number;
  readonly parts: readonly PreparedPart[];
  readonly faults: ReadonlyMap<string, PreparedFault>;
  readonly signs: readonly { readonly name: string; readonly rule: Rule }[];
  /** The order for a circuit that joins these pairs of nodes. */
  readonly factorFor: (key: string, pairs: readonly (readonly [number, number])[]) => SparseFactor;
};

// A walk's jumpers and lifted leads give a few dozen shapes; this many are kept.
const KEPT_SHAPES = 500;

/** Makes a bench ready to solve. The bench must have passed its check. */
export function prepare(bench: Bench): PreparedBench {
  const index = indexBench(bench);
  const rules = new Rules(index);
  const frequency = readFormula(bench.frequency);
  const hertz = frequency.ok ? compute(frequency.value, { value: () => undefined, functions: TRADE_FUNCTIONS }) : frequency;
  const shapes = new Map<string, SparseFactor>();
  return {
    bench,
    index,
    omega: 2 * Math.PI * (hertz.ok ? hertz.value : 60),
    parts: index.parts.map(({ known }) => ({
      values: known.values.map(({ key, text }) => [key, rules.value(text)] as const),
      rules: new Map(known.conditions.map(({ key, text }) => [key, rules.condition(text)])),
    })),
    faults: new Map(
      Object.entries(bench.faults).map(([name, fault]) => {
        const becoming = readBecoming(fault.becomes);
        return [
          name,
          { part: index.partNumber.get(fault.part) ?? -1, becoming, value: becoming.as === 'value' ? rules.value(becoming.text) : undefined },
        ];
      }),
    ),
    signs: Object.keys(bench.signs).map((name) => ({ name, rule: rules.sign(name) })),
    factorFor(key, pairs) {
      let shape = shapes.get(key);
      if (!shape) {
        if (shapes.size >= KEPT_SHAPES) shapes.clear();
        shape = new SparseFactor(index.nodes.length, pairs);
        shapes.set(key, shape);
      }
      return shape;
    },
  };
}
