import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DIMENSIONS } from '../quantity/index.ts';
import { success } from '../result.ts';
import { checkedBand } from './band.ts';
import { compute, holds } from './evaluate.ts';
import type { FunctionTable } from './formula-function.ts';
import { readCondition, readFormula } from './formula-reader.ts';
import { conditionProblem, dimensionOf, type FormulaScope } from './formula-type.ts';
import { showCondition, showFormula } from './show-formula.ts';

const functions: FunctionTable = {
  twice: {
    parameters: [
      { name: 'value', takes: 'quantity', dimension: DIMENSIONS.voltage, unit: 'V' },
      { name: 'way', takes: 'choice', choices: ['up', 'type-2'] },
    ],
    result: DIMENSIONS.voltage,
    unit: 'V',
    about: 'for this test',
    source: 'this test',
    compute: ([value]) => success(2 * Number(value)),
  },
};
const scope: FormulaScope = {
  names: {
    'coil-rated': DIMENSIONS.voltage,
    amps: DIMENSIONS.current,
    outdoor: DIMENSIONS.temperature,
    indoor: DIMENSIONS.temperature,
    run: DIMENSIONS.length,
    gauge: DIMENSIONS['wire gauge'],
  },
  functions,
  states: { 'heat-call': ['on', 'off'] },
};
const values: Record<string, number> = { 'coil-rated': 24, amps: 2, outdoor: 255.372, indoor: 294.261, run: 10, gauge: 18 };
const env = { value: (name: string) => values[name], functions };

const value = (text: string) => {
  const formula = readFormula(text);
  if (!formula.ok) return formula.problem.code;
  const typed = dimensionOf(formula.value, scope);
  if (!typed.ok) return typed.problem.code;
  const result = compute(formula.value, env);
  return result.ok ? result.value : result.problem.code;
};

describe('formulas', () => {
  it.each<[string, number]>([
    ['24 V', 24],
    ['85 % of coil-rated', 20.4],
    ['coil-rated - 2 V', 22],
    ['coil-rated / amps', 12],
    ['2 * (coil-rated + 1 V)', 50],
    ['-coil-rated + 30 V', 6],
    ['10 % of (coil-rated - 4 V)', 2],
    ['twice(coil-rated, type-2)', 48],
    ['30 pF/ft * run', (30e-12 / 0.3048) * 10],
    ['indoor - outdoor', 38.889],
    ['outdoor + 18 °F', 265.372],
    ['outdoor - 18 F°', 245.372],
    ['1e3 mV', 1],
  ])('%s', (text, expected) => {
    expect(value(text)).toBeCloseTo(expected, 6);
  });

  it.each<[string, string]>([
    ['24 V + 2 ohm', 'dimensions-differ'],
    ['24 V + 2', 'dimensions-differ'],
    ['outdoor + indoor', 'dimensions-differ'],
    ['10 % of outdoor', 'not-arithmetic'],
    ['outdoor * 2', 'dimensions-differ'],
    ['gauge + gauge', 'dimensions-differ'],
    ['coil', 'unknown-name'],
    ['constructor', 'unknown-name'],
    ['toString(1 V)', 'unknown-function'],
    ['twice(1 V)', 'wrong-arguments'],
    ['twice(1 ohm, up)', 'wrong-arguments'],
    ['twice(1 V, sideways)', 'wrong-arguments'],
    ['24 V +', 'cannot-read'],
    ['(24 V', 'cannot-read'],
    ['24 V 3', 'cannot-read'],
    ['24 V; 3', 'cannot-read'],
    ['coil-rated / (coil-rated - coil-rated)', 'not-computable'],
  ])('%s is refused: %s', (text, code) => {
    expect(value(text)).toBe(code);
  });

  it('points at the place', () => {
    const read = readFormula('24 V + @');
    expect(read).toMatchObject({ ok: false, problem: { at: [7, 8], found: '@' } });
  });

  it('hostile nesting and length are refused', () => {
    expect(readFormula(`${'('.repeat(5000)}1${')'.repeat(5000)}`).ok).toBe(false);
    expect(readFormula(`${'-'.repeat(1900)}1`).ok).toBe(false);
    expect(readCondition(`${'('.repeat(900)}a is b`).ok).toBe(false);
  });

  const leaf = fc.constantFrom('24 V', 'coil-rated', '0.5 V', '85 % of coil-rated', 'twice(3 V, up)');
  const formulaText = fc.letrec<{ f: string }>((tie) => ({
    f: fc.oneof(
      { depthSize: 'small', withCrossShrink: true },
      leaf,
      fc.tuple(tie('f'), fc.constantFrom('+', '-'), tie('f')).map(([a, o, b]) => `(${a}) ${o} (${b})`),
      fc.tuple(fc.constantFrom('2', '3.5'), tie('f')).map(([n, f]) => `${n} * (${f})`),
      tie('f').map((f) => `-(${f})`),
    ),
  })).f;

  it('written and read again are the same, in one canonical form', () => {
    fc.assert(
      fc.property(formulaText, (text) => {
        const first = readFormula(text);
        if (!first.ok) throw new Error(`${text}: ${first.problem.code}`);
        const shown = showFormula(first.value);
        const again = readFormula(shown);
        if (!again.ok) throw new Error(`${shown}: ${again.problem.code}`);
        expect(showFormula(again.value)).toBe(shown);
        expect(compute(again.value, env)).toEqual(compute(first.value, env));
      }),
      { seed: 11, numRuns: 500 },
    );
  });

  it('never throw on any text', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc
            .array(fc.constantFrom('24', ' V', '%', ' of ', '(', ')', ' - ', 'a-b', ' is ', ' to ', 'within ', '°F', '/'), { maxLength: 12 })
            .map((p) => p.join('')),
        ),
        (text) => {
          readFormula(text);
          readCondition(text);
          checkedBand(text, DIMENSIONS.voltage, scope);
        },
      ),
      { seed: 13, numRuns: 3000 },
    );
  });
});

describe('conditions', () => {
  const is = (text: string, call = 'on') => {
    const condition = readCondition(text);
    if (!condition.ok) return condition.problem.code;
    const problem = conditionProblem(condition.value, scope);
    if (problem) return problem.code;
    return holds(condition.value, { ...env, state: (name) => (name === 'heat-call' ? call : undefined) });
  };

  it.each<[string, boolean | string]>([
    ['heat-call is on', true],
    ['heat-call is not on', false],
    ['heat-call is on and coil-rated above 18 V', true],
    ['heat-call is off or coil-rated below 18 V', false],
    ['not (heat-call is off or coil-rated below 18 V)', true],
    ['(coil-rated - 4 V) above 18 V', true],
    ['(coil-rated - 4 V) + 1 V above 18 V', true],
    ['(heat-call is off or (heat-call is on and coil-rated above 18 V))', true],
    ['((heat-call is off))', false],
    ['heat-call is sideways', 'unknown-name'],
    ['cold-call is on', 'unknown-name'],
    ['coil-rated above 18 ohm', 'dimensions-differ'],
    ['coil-rated', 'cannot-read'],
  ])('%s', (text, expected) => {
    expect(is(text)).toBe(expected);
  });

  it('have one canonical form', () => {
    const text = 'heat-call is on and (heat-call is not off or coil-rated above 18 V)';
    const read = readCondition(text);
    expect(read.ok && showCondition(read.value)).toBe(text);
  });
});
