import { compute, type FactBox, type FactPoint, readFormula } from '../formula/index.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import type { Bench } from './bench.ts';

const NO_NAMES = { value: () => undefined, functions: TRADE_FUNCTIONS };

function constantOf(text: string): number {
  const formula = readFormula(text);
  const value = formula.ok ? compute(formula.value, NO_NAMES) : formula;
  return value.ok ? value.value : Number.NaN;
}

/** The facts of a checked bench, SI. */
export function factBox(bench: Bench): FactBox {
  return Object.fromEntries(
    Object.entries(bench.facts).map(([name, fact]) => [
      name,
      { usual: constantOf(fact.usual), from: constantOf(fact.from), to: constantOf(fact.to) },
    ]),
  );
}

/** Every fact at its usual value, SI. */
export function usualFacts(bench: Bench): FactPoint {
  return Object.fromEntries(Object.entries(factBox(bench)).map(([name, range]) => [name, range.usual]));
}

// 3⁴ points; with more facts, the usual values, each end of each fact alone, and the two ends of all together.
const ALL_OF = 4;

/** Fact corners: `usual` and each end of `from`..`to`, the usual ones first. */
export function factCorners(bench: Bench): readonly FactPoint[] {
  const usual = usualFacts(bench);
  const ranges = Object.entries(factBox(bench)).filter(([, range]) => range.from < range.to);
  if (ranges.length > ALL_OF) {
    const ends = ranges.flatMap(([name, range]) => [range.from, range.to].map((value) => ({ ...usual, [name]: value })));
    const together = (end: 'from' | 'to'): FactPoint => ({ ...usual, ...Object.fromEntries(ranges.map(([name, range]) => [name, range[end]])) });
    return [usual, ...ends, together('from'), together('to')];
  }
  let points: readonly FactPoint[] = [usual];
  for (const [name, range] of ranges) {
    const values = [...new Set([range.usual, range.from, range.to])];
    points = points.flatMap((point) => values.map((value) => ({ ...point, [name]: value })));
  }
  return points;
}
