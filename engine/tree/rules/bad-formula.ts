import {
  compute,
  dimensionOf,
  type FactRange,
  type Formula,
  type FormulaProblem,
  factPoints,
  namesIn,
  readFormula,
  unitOfAnswer,
} from '../../formula/index.ts';
import { dimensionName, NUMBER, quantityKind, unitOf } from '../../quantity/index.ts';
import { didYouMean } from '../did-you-mean.ts';
import { factUnit } from '../fact-unit.ts';
import { type Computed, isChoice } from '../tree.ts';
import type { ComputedPlaces } from '../tree-places.ts';
import type { FormulaFault, TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { FactScope } from './fact-scope.ts';
import type { RuleInput } from './rule-input.ts';
import { shownFacts } from './shown-facts.ts';

/** Every computed number can be read, has a unit that fits it, and has an answer whatever the facts are. */
export function badFormula(input: RuleInput): readonly TreeProblem[] {
  if (!input.frontMatterReadable || input.benches.length < input.tree.benches.length) return [];
  return eachStep(input, ({ step, places }) =>
    (step.computed ?? []).flatMap((computed, i) => {
      const place = places.computed[i];
      return place ? computedProblems(computed, place, input) : [];
    }),
  );
}

function computedProblems(computed: Computed, places: ComputedPlaces, input: RuleInput): readonly TreeProblem[] {
  const { shows, by } = computed;
  const bad = (fault: FormulaFault, place = places.by): readonly TreeProblem[] => [{ code: 'bad-formula', shows, ...fault, place }];
  const formula = readFormula(by);
  if (!formula.ok) return formulaFault(formula.problem, bad);
  const { functions } = input.surroundings;
  const dimension = dimensionOf(formula.value, { names: input.facts.dimensions, functions });
  if (!dimension.ok) {
    const { problem } = dimension;
    if (problem.code !== 'unknown-name') return formulaFault(problem, bad);
    if (input.doubtfulNames.has(problem.name)) return [];
    const { name, known } = problem;
    return [{ code: 'unknown-fact', name, known, suggestion: didYouMean(name, known), place: places.by }];
  }
  const unit = computed.unit ?? unitOfAnswer(formula.value, functions, (name) => unitOfFact(name, input.facts));
  const gives = dimensionName(dimension.value);
  if (unit === undefined && dimension.value !== NUMBER) return bad({ why: 'no-unit', gives }, places.whole);
  if (unit !== undefined && unit !== '' && unitOf(unit)?.dimension !== dimension.value) {
    return bad(unitOf(unit) ? { why: 'other-unit', unit, gives } : { why: 'unit-not-known', found: unit }, places.unit);
  }
  return uncomputed(formula.value, input, bad);
}

function uncomputed(formula: Formula, { facts, surroundings }: RuleInput, bad: (fault: FormulaFault) => readonly TreeProblem[]) {
  const { functions } = surroundings;
  const names = namesIn(formula, functions);
  const box = Object.fromEntries(
    names.flatMap((name): [string, FactRange][] => {
      const range = facts.ranges.get(name);
      return range ? [[name, range]] : [];
    }),
  );
  // A fact whose range could not be read is reported where it stands.
  if (Object.keys(box).length < names.length) return [];
  for (const point of factPoints(box)) {
    const value = compute(formula, { value: (name) => point[name], functions });
    if (!value.ok && value.problem.code === 'not-computable')
      return bad({ why: 'not-computable', what: value.problem.why, facts: shownFacts(point, facts) });
  }
  return [];
}

function unitOfFact(name: string, { specs }: FactScope): string | undefined {
  const spec = specs.get(name);
  return spec && !isChoice(spec) ? (factUnit(spec) ?? quantityKind(spec.quantity).unit) : undefined;
}

function formulaFault(problem: FormulaProblem, bad: (fault: FormulaFault) => readonly TreeProblem[]): readonly TreeProblem[] {
  switch (problem.code) {
    case 'cannot-read':
      return bad({ why: 'cannot-read', found: problem.found, expected: problem.expected });
    case 'unit-not-known':
      return bad({ why: 'unit-not-known', found: problem.found });
    case 'unknown-function':
      return bad({ why: 'unknown-function', name: problem.name, suggestion: didYouMean(problem.name, problem.known) });
    case 'wrong-arguments':
      return bad({ why: 'wrong-arguments', name: problem.name, expected: problem.expected });
    case 'dimensions-differ':
      return bad({ why: 'arithmetic', operator: problem.operator, left: problem.left, right: problem.right });
    case 'not-arithmetic':
      return bad({ why: 'arithmetic', operator: problem.operator, left: problem.got, right: '' });
    default:
      return [];
  }
}
