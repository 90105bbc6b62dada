import { compute, type FactPoint, type Formula, factPoints, readFormula } from '../formula/index.ts';
import { QUANTITY_KINDS, showIn, showQuantity, type Unit, unitOf } from '../quantity/index.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import type { BenchIndex } from './bench-index.ts';
import { type BenchProblem, problemAt } from './bench-problem.ts';
import { factBox } from './fact-corners.ts';
import type { DimensionName, ValueRule } from './part-kind.ts';

// The unit in which a value of a dimension is told.
const UNITS: Readonly<Partial<Record<DimensionName, string>>> = {
  voltage: 'V',
  resistance: 'ohm',
  current: 'A',
  power: 'VA',
  length: 'ft',
  'wire gauge': 'AWG',
  temperature: '°F',
  'temperature difference': 'F°',
  capacitance: 'uF',
  'capacitance per length': 'pF/ft',
  inductance: 'H',
  pressure: 'in. w.c.',
  'volume flow': 'gpd',
  time: 's',
  frequency: 'Hz',
};

/** A value for a message, in its dimension's unit. */
export function showValue(si: number, dimension: DimensionName): string {
  const unit: Unit | undefined = unitOf(UNITS[dimension] ?? '');
  return unit ? showIn(Number(si.toPrecision(6)), unit, 6) : String(Number(si.toPrecision(6)));
}

const FREQUENCY: ValueRule = { dimension: 'frequency', least: 1, most: 1000 };

/** Values at the usual facts, at their corners and inside: each possible by itself and together with its part's others. */
export function checkValues(index: BenchIndex): readonly BenchProblem[] {
  const { bench, parts } = index;
  const problems: BenchProblem[] = [];
  const box = factBox(bench);
  for (const [name, range] of Object.entries(box)) {
    const { quantity } = bench.facts[name] ?? { quantity: 'number' as const };
    const { floor } = QUANTITY_KINDS[quantity];
    const show = (si: number): string => showQuantity(si, quantity);
    if (range.from < floor) {
      problems.push(problemAt(['facts', name, 'from'], { code: 'absurd-value', shown: show(range.from), least: show(floor), most: 'more' }));
    } else if (!(range.from <= range.usual && range.usual <= range.to)) {
      problems.push(
        problemAt(['facts', name, 'usual'], { code: 'fact-range', fact: name, from: show(range.from), usual: show(range.usual), to: show(range.to) }),
      );
    }
  }
  const hertz = readFormula(bench.frequency);
  if (hertz.ok) judge(hertz.value, bench.frequency, FREQUENCY, [{}], problems, ['frequency'], 0, bench.facts);
  if (problems.length > 0) return problems;

  const points = factPoints(box);
  for (const { name, known } of parts) {
    const before = problems.length;
    const formulas = known.values.map((value) => ({ ...value, formula: readFormula(value.text) }));
    for (const { formula, field, rule, offset, text } of formulas) {
      if (formula.ok) judge(formula.value, text, rule, points, problems, ['parts', name, field], offset, bench.facts);
    }
    if (problems.length > before) continue;
    const varies = formulas.some(({ formula }) => formula.ok && namesIn(formula.value).length > 0);
    for (const facts of varies ? points : points.slice(0, 1)) {
      const values: Record<string, number> = {};
      for (const { key, formula } of formulas) if (formula.ok) values[key] = valueAt(formula.value, facts);
      const trouble = known.trouble(values);
      if (!trouble) continue;
      const path = ['parts', name, trouble.field];
      if ('why' in trouble) problems.push(problemAt(path, { code: 'not-computable', why: trouble.why, ...factsText(facts, formulas, bench.facts) }));
      else if ('missing' in trouble) problems.push(problemAt(path, { code: 'missing-key', key: trouble.missing }, { key: true }));
      else problems.push(problemAt(path, { code: 'bad-value', expected: trouble.expected }));
      break;
    }
  }
  return problems;
}

const valueAt = (formula: Formula, facts: FactPoint): number => {
  const value = compute(formula, { value: (name) => facts[name], functions: TRADE_FUNCTIONS });
  return value.ok ? value.value : Number.NaN;
};

/** Tells the first facts at which one value is absurd or has no answer. */
export function judge(
  formula: Formula,
  text: string,
  rule: ValueRule,
  points: readonly FactPoint[],
  problems: BenchProblem[],
  path: readonly (string | number)[],
  offset: number,
  facts: BenchIndex['bench']['facts'],
): void {
  const span: readonly [number, number] = [offset, offset + text.length];
  // Without a fact in it, one point is all of them.
  for (const point of namesIn(formula).length > 0 ? points : points.slice(0, 1)) {
    const value = compute(formula, { value: (name) => point[name], functions: TRADE_FUNCTIONS });
    if (!value.ok) {
      const why = value.problem.code === 'not-computable' ? value.problem.why : ({ code: 'no-answer', what: 'nothing' } as const);
      problems.push(
        problemAt(path, { code: 'not-computable', why, ...factsText(point, [{ formula: { ok: true, value: formula } }], facts) }, { span }),
      );
      return;
    }
    if (value.value >= rule.least && value.value <= rule.most) continue;
    const show = (si: number): string => showValue(si, rule.dimension);
    problems.push(
      problemAt(
        path,
        {
          code: 'absurd-value',
          shown: show(value.value),
          least: show(rule.least),
          most: show(rule.most),
          ...factsText(point, [{ formula: { ok: true, value: formula } }], facts),
        },
        { span },
      ),
    );
    return;
  }
}

function namesIn(formula: Formula): readonly string[] {
  switch (formula.op) {
    case 'literal':
      return [];
    case 'name':
      return [formula.name];
    case 'call':
      return formula.args.flatMap(namesIn);
    case 'negate':
    case 'percent-of':
      return namesIn(formula.of);
    default:
      return [...namesIn(formula.left), ...namesIn(formula.right)];
  }
}

/** `line-volts 108 V`: the facts that a value depends on. */
function factsText(
  point: FactPoint,
  formulas: readonly { readonly formula: { readonly ok: boolean; readonly value?: Formula } }[],
  facts: BenchIndex['bench']['facts'],
): { readonly facts?: string } {
  const names = new Set(formulas.flatMap(({ formula }) => (formula.ok && formula.value ? namesIn(formula.value) : [])));
  const texts = [...names].flatMap((name) => {
    const value = point[name];
    const fact = facts[name];
    return value === undefined || !fact ? [] : [`${name} ${showQuantity(value, fact.quantity)}`];
  });
  return texts.length > 0 ? { facts: texts.join(', ') } : {};
}
