import type { Condition, Formula, Span } from '../formula/index.ts';

/** One use of a function in a condition or formula: its name and its words with where they stand. */
export type CircuitCall = { readonly name: string; readonly words: readonly { readonly text: string; readonly at: Span }[]; readonly at: Span };

function callsInFormula(formula: Formula): readonly CircuitCall[] {
  switch (formula.op) {
    case 'literal':
    case 'name':
      return [];
    case 'negate':
    case 'percent-of':
      return callsInFormula(formula.of);
    case 'call': {
      const words = formula.args.flatMap((arg) => (arg.op === 'name' ? [{ text: arg.name, at: arg.at }] : []));
      return [{ name: formula.name, words, at: formula.at }, ...formula.args.flatMap(callsInFormula)];
    }
    default:
      return [...callsInFormula(formula.left), ...callsInFormula(formula.right)];
  }
}

/** Every function call in a condition. */
export function callsIn(condition: Condition): readonly CircuitCall[] {
  switch (condition.op) {
    case 'and':
    case 'or':
      return condition.terms.flatMap(callsIn);
    case 'not':
      return callsIn(condition.term);
    case 'is':
      return [];
    default:
      return [...callsInFormula(condition.left), ...callsInFormula(condition.right)];
  }
}

/** Every name whose state a condition asks for. */
export function statesIn(condition: Condition): readonly (Condition & { readonly op: 'is' })[] {
  switch (condition.op) {
    case 'and':
    case 'or':
      return condition.terms.flatMap(statesIn);
    case 'not':
      return statesIn(condition.term);
    case 'is':
      return [condition];
    default:
      return [];
  }
}
