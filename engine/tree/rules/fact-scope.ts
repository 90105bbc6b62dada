import { type Band, bandEdges, type FactBox, type FactRange, type Formula } from '../../formula/index.ts';
import { type Dimension, quantityKind } from '../../quantity/index.ts';
import { quantityText } from '../quantity-text.ts';
import type { BenchNames } from '../surroundings.ts';
import { type FactSpec, isChoice, type QuantityFact, type Tree } from '../tree.ts';

/** The facts that a tree may use: its own, and those of its benches. */
export type FactScope = {
  readonly specs: ReadonlyMap<string, FactSpec>;
  /** Quantities only. */
  readonly dimensions: Readonly<Record<string, Dimension>>;
  readonly ranges: ReadonlyMap<string, FactRange>;
};

export function factScope(tree: Tree, benches: readonly BenchNames[]): FactScope {
  const specs = new Map<string, FactSpec>();
  const ranges = new Map<string, FactRange>();
  for (const bench of benches) {
    for (const [name, fact] of Object.entries(bench.facts)) {
      const range = rangeOf(fact);
      const other = ranges.get(name);
      if (!specs.has(name)) specs.set(name, fact);
      // Benches that give a fact different ranges are all to be held.
      if (range) ranges.set(name, other ? { ...other, from: Math.min(other.from, range.from), to: Math.max(other.to, range.to) } : range);
    }
  }
  for (const [name, fact] of Object.entries(tree.facts)) {
    specs.set(name, fact);
    ranges.delete(name);
    const range = isChoice(fact) ? undefined : rangeOf(fact);
    if (range) ranges.set(name, range);
  }
  const dimensions: [string, Dimension][] = [];
  for (const [name, fact] of specs) if (!isChoice(fact)) dimensions.push([name, quantityKind(fact.quantity).dimension]);
  return { specs, dimensions: Object.fromEntries(dimensions), ranges };
}

/** A range that is written the wrong way round is reported by its own rule; the bands are judged by what was meant. */
function rangeOf(fact: QuantityFact): FactRange | undefined {
  const [usual, from, to] = [fact.usual, fact.from, fact.to].map((text) => quantityText(text, fact.quantity));
  if (typeof usual !== 'object' || typeof from !== 'object' || typeof to !== 'object') return undefined;
  const low = Math.min(from.si, to.si);
  const high = Math.max(from.si, to.si);
  return { usual: Math.min(Math.max(usual.si, low), high), from: low, to: high };
}

/** The ranges of the facts that these bands name. */
export function boxOf(bands: readonly Band[], scope: FactScope): FactBox {
  const names = new Set<string>();
  for (const band of bands) {
    const { low, high } = bandEdges(band);
    for (const edge of [low, high]) if (edge) addNames(edge, names);
  }
  const entries = [...names].map((name) => [name, scope.ranges.get(name)] as const);
  return Object.fromEntries(entries.filter((entry): entry is readonly [string, FactRange] => entry[1] !== undefined));
}

function addNames(formula: Formula, names: Set<string>): void {
  if (formula.op === 'name') names.add(formula.name);
  else if (formula.op === 'call') for (const arg of formula.args) addNames(arg, names);
  else if (formula.op === 'negate' || formula.op === 'percent-of') addNames(formula.of, names);
  else if ('left' in formula) {
    addNames(formula.left, names);
    addNames(formula.right, names);
  }
}
