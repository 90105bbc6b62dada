import { compute, readFormula } from '../formula/index.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import { type Becoming, readBecoming } from './becoming.ts';
import type { Bench } from './bench.ts';
import { type BenchIndex, indexBench } from './bench-index.ts';
import type { CircuitView, Rule } from './circuit-builder.ts';
import { Shapes } from './circuit-shape.ts';
import { Rules } from './condition-rule.ts';
import { SoundStamps } from './part-stamp.ts';

type Value = (view: CircuitView) => number;

export type PreparedPart = {
  /** Values that depend on facts, and those that do not, worked out once. */
  readonly values: readonly (readonly [key: string, value: Value])[];
  readonly constants: Readonly<Record<string, number>>;
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
  /** Every name that a situation may use, by what it names. */
  readonly known: Readonly<Record<'fact' | 'fault' | 'lead' | 'terminal', ReadonlySet<string>>>;
  /** Worked out so far, kept because circuits of one bench are much alike: shapes, and the stamps of sound parts. */
  readonly shapes: Shapes;
  readonly stamps: SoundStamps;
};

const NO_FACTS = { value: () => undefined, functions: TRADE_FUNCTIONS };

/** Makes a bench ready to solve. The bench must have passed its check. */
export function prepare(bench: Bench): PreparedBench {
  const index = indexBench(bench);
  const rules = new Rules(index);
  const frequency = readFormula(bench.frequency);
  const hertz = frequency.ok ? compute(frequency.value, NO_FACTS) : frequency;
  return {
    bench,
    index,
    omega: 2 * Math.PI * (hertz.ok ? hertz.value : 60),
    parts: index.parts.map(({ known }) => {
      const constants: Record<string, number> = {};
      const values: (readonly [string, Value])[] = [];
      for (const { key, text } of known.values) {
        const formula = readFormula(text);
        const constant = formula.ok ? compute(formula.value, NO_FACTS) : formula;
        if (constant.ok) constants[key] = constant.value;
        else values.push([key, rules.value(text)]);
      }
      return { values, constants, rules: new Map(known.conditions.map(({ key, text }) => [key, rules.condition(text)])) };
    }),
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
    known: {
      fact: new Set(Object.keys(bench.facts)),
      fault: new Set(Object.keys(bench.faults)),
      lead: new Set(index.leads.map(({ name }) => name)),
      terminal: new Set(index.nodeNumber.keys()),
    },
    shapes: new Shapes(index.nodes.length),
    stamps: new SoundStamps(),
  };
}
