import {
  type Dimension,
  dimensionName,
  NUMBER,
  overDimension,
  TEMPERATURE,
  TEMPERATURE_DIFFERENCE,
  timesDimension,
  WIRE_GAUGE,
} from '../quantity/index.ts';
import { failure, type Result, success } from '../result.ts';
import type { Condition, Formula, FormulaProblem, StateNames } from './formula.ts';
import type { FormulaParameter, FunctionTable } from './formula-function.ts';

/** What the names in a formula are: quantities by dimension, functions, and (in conditions) states and symbols. */
export type FormulaScope = {
  readonly names: Readonly<Record<string, Dimension>>;
  readonly functions: FunctionTable;
  readonly states?: StateNames;
  /** Names allowed where a function takes a symbol (a terminal or a part); any where absent. */
  readonly symbols?: readonly string[];
};

type Typed = Result<Dimension, FormulaProblem>;

/** The dimension of a formula, or the first place where its dimensions do not fit. */
export function dimensionOf(formula: Formula, scope: FormulaScope): Typed {
  switch (formula.op) {
    case 'literal':
      return success(formula.dimension);
    case 'name': {
      const dimension = Object.hasOwn(scope.names, formula.name) ? scope.names[formula.name] : undefined;
      return dimension === undefined
        ? failure({ code: 'unknown-name', at: formula.at, name: formula.name, known: Object.keys(scope.names) })
        : success(dimension);
    }
    case 'call':
      return callDimension(formula, scope);
    case 'negate':
    case 'percent-of': {
      const of = dimensionOf(formula.of, scope);
      if (of.ok && (of.value === TEMPERATURE || of.value === WIRE_GAUGE)) {
        return failure({ code: 'not-arithmetic', at: formula.at, operator: formula.op === 'negate' ? '-' : '% of', got: dimensionName(of.value) });
      }
      return of;
    }
    default:
      return binaryDimension(formula, scope);
  }
}

function binaryDimension(formula: Formula & { left: Formula; right: Formula; op: '+' | '-' | '*' | '/' }, scope: FormulaScope): Typed {
  const left = dimensionOf(formula.left, scope);
  if (!left.ok) return left;
  const right = dimensionOf(formula.right, scope);
  if (!right.ok) return right;
  const { op } = formula;
  const misfit = failure<FormulaProblem>({
    code: 'dimensions-differ',
    at: formula.at,
    operator: op,
    left: dimensionName(left.value),
    right: dimensionName(right.value),
  });
  if (op === '*' || op === '/') {
    const result = op === '*' ? timesDimension(left.value, right.value) : overDimension(left.value, right.value);
    return result === undefined ? misfit : success(result);
  }
  if (left.value === TEMPERATURE && right.value === TEMPERATURE_DIFFERENCE) return success(TEMPERATURE);
  if (left.value === TEMPERATURE_DIFFERENCE && right.value === TEMPERATURE && op === '+') return success(TEMPERATURE);
  if (left.value === TEMPERATURE && right.value === TEMPERATURE) return op === '-' ? success(TEMPERATURE_DIFFERENCE) : misfit;
  return left.value === right.value && left.value !== WIRE_GAUGE ? left : misfit;
}

function callDimension(formula: Formula & { op: 'call' }, scope: FormulaScope): Typed {
  const fn = Object.hasOwn(scope.functions, formula.name) ? scope.functions[formula.name] : undefined;
  if (!fn) return failure({ code: 'unknown-function', at: formula.at, name: formula.name, known: Object.keys(scope.functions) });
  const wrong = failure<FormulaProblem>({
    code: 'wrong-arguments',
    at: formula.at,
    name: formula.name,
    expected: signature(formula.name, fn.parameters),
  });
  if (fn.parameters.length !== formula.args.length) return wrong;
  for (const [i, parameter] of fn.parameters.entries()) {
    const arg = formula.args[i];
    if (!arg) return wrong;
    if (parameter.takes === 'quantity') {
      const dimension = dimensionOf(arg, scope);
      if (!dimension.ok) return dimension;
      if (dimension.value !== parameter.dimension) return wrong;
    } else if (arg.op !== 'name') return wrong;
    else if (parameter.takes === 'choice' && !parameter.choices.includes(arg.name)) return wrong;
    else if (parameter.takes === 'symbol' && scope.symbols && !scope.symbols.includes(arg.name)) {
      return failure({ code: 'unknown-name', at: arg.at, name: arg.name, known: scope.symbols });
    }
  }
  return success(fn.result);
}

/** `ntc(ohms at 25 °C in ohm, curve: type-2 or type-3, temperature in °F)`: how a function is to be called. */
export function signature(name: string, parameters: readonly FormulaParameter[]): string {
  const shown = parameters.map((p) =>
    p.takes === 'quantity' ? `${p.name} in ${p.unit || 'plain numbers'}` : p.takes === 'choice' ? `${p.name}: ${p.choices.join(' or ')}` : p.name,
  );
  return `${name}(${shown.join(', ')})`;
}

/** The first thing wrong with a condition's names, states and dimensions; undefined where all is well. */
export function conditionProblem(condition: Condition, scope: FormulaScope): FormulaProblem | undefined {
  switch (condition.op) {
    case 'and':
    case 'or':
      for (const term of condition.terms) {
        const problem = conditionProblem(term, scope);
        if (problem) return problem;
      }
      return undefined;
    case 'not':
      return conditionProblem(condition.term, scope);
    case 'is': {
      const states = scope.states ?? {};
      const known = Object.hasOwn(states, condition.name) ? states[condition.name] : undefined;
      if (!known) return { code: 'unknown-name', at: condition.at, name: condition.name, known: Object.keys(states) };
      return known.includes(condition.state) ? undefined : { code: 'unknown-name', at: condition.at, name: condition.state, known };
    }
    default: {
      const left = dimensionOf(condition.left, scope);
      if (!left.ok) return left.problem;
      const right = dimensionOf(condition.right, scope);
      if (!right.ok) return right.problem;
      if (left.value === right.value) return undefined;
      return {
        code: 'dimensions-differ',
        at: condition.at,
        operator: condition.op,
        left: dimensionName(left.value),
        right: dimensionName(right.value),
      };
    }
  }
}

/** Whether a formula is a plain number: a sign that its unit was forgotten. */
export const isUnitless = (dimension: Dimension): boolean => dimension === NUMBER;
