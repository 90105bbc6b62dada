import type { Condition, Formula } from './formula.ts';

const RANK = { '+': 1, '-': 1, '*': 2, '/': 2 } as const;

/** The canonical text of a formula; reading it again gives the same formula. */
export function showFormula(formula: Formula): string {
  switch (formula.op) {
    case 'literal':
      return formula.unit === '' ? formula.written : `${formula.written} ${formula.unit}`;
    case 'name':
      return formula.name;
    case 'call':
      return `${formula.name}(${formula.args.map(showFormula).join(', ')})`;
    case 'negate':
      return `-${tight(formula.of)}`;
    case 'percent-of':
      return `${formula.percent} % of ${tight(formula.of)}`;
    default: {
      const rank = RANK[formula.op];
      return `${side(formula.left, rank)} ${formula.op} ${side(formula.right, rank + 1)}`;
    }
  }
}

function rankOf(formula: Formula): number {
  return formula.op in RANK ? RANK[formula.op as keyof typeof RANK] : 3;
}

const side = (formula: Formula, least: number): string => (rankOf(formula) < least ? `(${showFormula(formula)})` : showFormula(formula));

const tight = (formula: Formula): string => side(formula, 3);

/** The canonical text of a condition. */
export function showCondition(condition: Condition): string {
  switch (condition.op) {
    case 'or':
      return condition.terms.map(showCondition).join(' or ');
    case 'and':
      return condition.terms.map((t) => (t.op === 'or' ? `(${showCondition(t)})` : showCondition(t))).join(' and ');
    case 'not':
      if (condition.term.op === 'is') return `${condition.term.name} is not ${condition.term.state}`;
      return `not ${condition.term.op === 'and' || condition.term.op === 'or' ? `(${showCondition(condition.term)})` : showCondition(condition.term)}`;
    case 'is':
      return `${condition.name} is ${condition.state}`;
    default:
      return `${showFormula(condition.left)} ${condition.op} ${showFormula(condition.right)}`;
  }
}
