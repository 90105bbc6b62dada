import type { Formula } from './formula.ts';
import type { FunctionTable } from './formula-function.ts';

/** The names of facts in a formula, each once, in the order that they stand in. Words given to a function as a choice are none. */
export function namesIn(formula: Formula, functions: FunctionTable): readonly string[] {
  const names = new Set<string>();
  visit(formula, functions, (part) => {
    if (part.op === 'name') names.add(part.name);
  });
  return [...names];
}

/** Where the answer of a formula comes from: the source of each function in it, each once. Empty where it is arithmetic alone. */
export function sourcesIn(formula: Formula, functions: FunctionTable): readonly string[] {
  const sources = new Set<string>();
  visit(formula, functions, (part) => {
    const fn = part.op === 'call' && Object.hasOwn(functions, part.name) ? functions[part.name] : undefined;
    if (fn) sources.add(fn.source);
  });
  return [...sources];
}

function visit(formula: Formula, functions: FunctionTable, see: (part: Formula) => void): void {
  see(formula);
  if (formula.op === 'call') {
    const fn = Object.hasOwn(functions, formula.name) ? functions[formula.name] : undefined;
    for (const [i, arg] of formula.args.entries()) {
      if (fn?.parameters[i]?.takes === 'quantity' || arg.op !== 'name') visit(arg, functions, see);
    }
  } else if ('of' in formula) visit(formula.of, functions, see);
  else if ('left' in formula) {
    visit(formula.left, functions, see);
    visit(formula.right, functions, see);
  }
}

/**
 * The unit in which the answer of a formula is shown where nobody names one: that of its function, of its fact (`unitOfName`) or of its
 * first term. Undefined for products and quotients, which have none of their own.
 */
export function unitOfAnswer(formula: Formula, functions: FunctionTable, unitOfName: (name: string) => string | undefined): string | undefined {
  switch (formula.op) {
    case 'literal':
      return formula.unit;
    case 'name':
      return unitOfName(formula.name);
    case 'call':
      return Object.hasOwn(functions, formula.name) ? functions[formula.name]?.unit : undefined;
    case 'negate':
    case 'percent-of':
      return unitOfAnswer(formula.of, functions, unitOfName);
    case '+':
    case '-':
      return differenceUnit(formula, functions, unitOfName);
    default:
      return undefined;
  }
}

// One temperature less another is a difference, and is shown as one.
function differenceUnit(
  { op, left, right }: Formula & { left: Formula; right: Formula },
  functions: FunctionTable,
  unitOfName: (name: string) => string | undefined,
): string | undefined {
  const [first, second] = [left, right].map((side) => unitOfAnswer(side, functions, unitOfName));
  const scale = (unit: string | undefined): string | undefined => (unit === '°F' ? 'F°' : unit === '°C' ? 'C°' : undefined);
  if (op === '-' && scale(first) && scale(second)) return scale(first);
  return op === '+' && scale(second) ? second : first;
}
