import { compute, computeWords, type Formula, type FunctionTable, namesIn, readFormula, sourcesIn, unitOfAnswer } from '../formula/index.ts';
import { DIMENSIONS, quantityKind, showIn, type Unit, unitOf } from '../quantity/index.ts';
import { type Computed, factUnit, isChoice, type Step } from '../tree/index.ts';
import { factStates, factValue, type KnownFacts, type SiteFacts } from './site-facts.ts';
import type { ComputedNumber } from './walk-view.ts';

/** A computed number of a step, made ready: what it names, where it comes from, and the unit it is shown in. */
export type ComputedFormula = Computed & {
  readonly formula: Formula;
  readonly shownIn: string;
  readonly names: readonly string[];
  readonly sources: readonly string[];
  readonly functions: FunctionTable;
};

/** The computed numbers of a step. Their formulas were read at the edition's border. */
export function computedFormulas(step: Step, facts: SiteFacts, functions: FunctionTable): readonly ComputedFormula[] {
  const unitOfFact = (name: string): string | undefined => {
    const spec = facts.get(name)?.spec;
    return spec && !isChoice(spec) ? (factUnit(spec) ?? quantityKind(spec.quantity).unit) : undefined;
  };
  return (step.computed ?? []).flatMap((computed) => {
    const formula = readFormula(computed.by);
    if (!formula.ok) return [];
    const shownIn = computed.unit ?? unitOfAnswer(formula.value, functions, unitOfFact) ?? '';
    const names = namesIn(formula.value, functions);
    return [{ ...computed, formula: formula.value, shownIn, names, sources: sourcesIn(formula.value, functions), functions }];
  });
}

/** A computed number with the facts of this house: those that are known, the usual ones for the rest. */
export function computedNumber(
  { shows, by, formula, shownIn, names, sources, functions }: ComputedFormula,
  facts: SiteFacts,
  known: KnownFacts,
): ComputedNumber {
  const states = new Map(factStates(facts, known).map((state) => [state.name, state]));
  const given = names.flatMap((name) => states.get(name) ?? []);
  const value = compute(formula, { value: (name) => factValue(facts, known, name), functions });
  const unit = unitOf(shownIn);
  const shared = { shows, by, given, sources };
  if (value.ok) return { ...shared, text: unit ? showIn(value.value, unit, digitsIn(unit)) : String(Number(value.value.toPrecision(3))) };
  const { problem } = value;
  const why = problem.code === 'not-computable' ? computeWords(problem.why).message : 'This app does not know a function that the tree calls.';
  return { ...shared, why };
}

// As many as the sources are good for: sensor tables have four figures of ohms, estimates of air and water not three.
const digitsIn = (unit: Unit): number => (unit.dimension === DIMENSIONS.resistance ? 4 : 3);
