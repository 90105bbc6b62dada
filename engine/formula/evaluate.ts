import { failure, type Result, success } from '../result.ts';
import type { Condition, Formula, FormulaProblem } from './formula.ts';
import type { FunctionTable } from './formula-function.ts';

/** Where values come from. `value` gives SI, undefined where unknown; `report` hears why a result is NaN. */
export type Environment = {
  readonly value: (name: string) => number | undefined;
  readonly functions: FunctionTable;
  readonly state?: (name: string) => string | undefined;
  readonly report?: (problem: FormulaProblem) => void;
};

/** The SI value of a type-checked formula; NaN, with a report, where it cannot be computed. */
export function evaluate(formula: Formula, env: Environment): number {
  switch (formula.op) {
    case 'literal':
      return formula.si;
    case 'name': {
      const value = env.value(formula.name);
      if (value === undefined) env.report?.({ code: 'not-computable', at: formula.at, why: { code: 'value-missing', what: formula.name } });
      return value ?? Number.NaN;
    }
    case 'call': {
      const fn = Object.hasOwn(env.functions, formula.name) ? env.functions[formula.name] : undefined;
      if (!fn) {
        env.report?.({ code: 'unknown-function', at: formula.at, name: formula.name, known: Object.keys(env.functions) });
        return Number.NaN;
      }
      const args = formula.args.map((arg, i) => (fn.parameters[i]?.takes === 'quantity' ? evaluate(arg, env) : arg.op === 'name' ? arg.name : ''));
      if (args.some((arg) => Number.isNaN(arg))) return Number.NaN;
      const result = fn.compute(args);
      if (result.ok) return result.value;
      env.report?.({ code: 'not-computable', at: formula.at, why: result.problem });
      return Number.NaN;
    }
    case 'negate':
      return -evaluate(formula.of, env);
    case 'percent-of':
      return (Number(formula.percent) * evaluate(formula.of, env)) / 100;
    case '+':
      return evaluate(formula.left, env) + evaluate(formula.right, env);
    case '-':
      return evaluate(formula.left, env) - evaluate(formula.right, env);
    case '*':
      return evaluate(formula.left, env) * evaluate(formula.right, env);
    case '/': {
      const quotient = evaluate(formula.left, env) / evaluate(formula.right, env);
      if (Number.isFinite(quotient)) return quotient;
      env.report?.({ code: 'not-computable', at: formula.at, why: { code: 'no-answer', what: 'a division by zero' } });
      return Number.NaN;
    }
  }
}

/** As `evaluate`, with the problem as data. */
export function compute(formula: Formula, env: Omit<Environment, 'report'>): Result<number, FormulaProblem> {
  let problem: FormulaProblem | undefined;
  const value = evaluate(formula, { ...env, report: (p) => (problem ??= p) });
  if (problem) return failure(problem);
  if (Number.isFinite(value)) return success(value);
  return failure({ code: 'not-computable', at: formula.at, why: { code: 'no-answer', what: 'a number of a possible size' } });
}

/** Whether a checked condition holds. A comparison with NaN on either side does not. */
export function holds(condition: Condition, env: Environment): boolean {
  switch (condition.op) {
    case 'and':
      return condition.terms.every((term) => holds(term, env));
    case 'or':
      return condition.terms.some((term) => holds(term, env));
    case 'not':
      return !holds(condition.term, env);
    case 'is':
      return env.state?.(condition.name) === condition.state;
    case 'above':
      return evaluate(condition.left, env) > evaluate(condition.right, env);
    case 'below':
      return evaluate(condition.left, env) < evaluate(condition.right, env);
  }
}
