import { readFileSync } from 'node:fs';
import { compute, dimensionOf, readFormula } from '../../engine/formula/index.ts';
import { fromSi, unitOf } from '../../engine/quantity/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';

/** A formula as a tree would have it, computed, in a unit. */
export function computed(text: string, unit: string): number {
  const formula = readFormula(text);
  if (!formula.ok) throw new Error(`cannot read ${text}`);
  const shownIn = unitOf(unit);
  const dimension = dimensionOf(formula.value, { names: {}, functions: TRADE_FUNCTIONS });
  if (!dimension.ok) throw new Error(`${text}: ${JSON.stringify(dimension.problem)}`);
  if (dimension.value !== shownIn?.dimension) throw new Error(`${text} is not in ${unit}`);
  const result = compute(formula.value, { value: () => undefined, functions: TRADE_FUNCTIONS });
  if (!result.ok) throw new Error(`${text}: ${JSON.stringify(result.problem)}`);
  return fromSi(result.value, shownIn);
}

/** Rows of a table in tests/outside, by the names of its columns. No cell of these has a comma in it. */
export function table(name: string): readonly Readonly<Record<string, string>>[] {
  const [head = '', ...lines] = readFileSync(new URL(`../outside/${name}`, import.meta.url), 'utf8')
    .trim()
    .split('\n');
  const columns = head.split(',');
  return lines.map((line) => Object.fromEntries(line.split(',').map((cell, i) => [columns[i] ?? '', cell])));
}

/** The code of why a formula has no answer. */
export function reasonOf(text: string): string {
  const formula = readFormula(text);
  if (!formula.ok) throw new Error(`cannot read ${text}`);
  const dimension = dimensionOf(formula.value, { names: {}, functions: TRADE_FUNCTIONS });
  if (!dimension.ok) throw new Error(`${text}: ${JSON.stringify(dimension.problem)}`);
  const result = compute(formula.value, { value: () => undefined, functions: TRADE_FUNCTIONS });
  return result.ok ? `computed ${result.value}` : result.problem.code === 'not-computable' ? result.problem.why.code : result.problem.code;
}
