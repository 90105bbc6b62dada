import { dimensionName, NUMBER, quantityKind, unitOf } from '../../quantity/index.ts';
import { isChoice, type ReadingStep, waysOf } from '../tree.ts';
import { attributePlace, keyPlace, type StepPlaces } from '../tree-places.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { eachStep, type StepView } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';

/** Everything compared is of one kind: bands with readings, units with what is taken, a tree's facts with its benches'. */
export function unitMismatch(input: RuleInput): readonly TreeProblem[] {
  return [
    ...benchFacts(input),
    ...eachStep(input, (view) => [
      ...ofBands(view, input),
      ...(view.step.kind === 'reading' && !view.note.doubtfulTask
        ? [...ofUnit(view.step, view.places), ...ofSets(view.step, view.places, input)]
        : []),
    ]),
  ];
}

function ofBands({ step, index }: StepView, input: RuleInput): readonly TreeProblem[] {
  const checked = input.bands[index];
  if (!checked) return [];
  return checked.bands.flatMap(({ way, note, problem }): TreeProblem[] => {
    const band = waysOf(step)[way]?.on ?? '';
    if (problem?.code === 'dimensions-differ' && problem.operator === 'band') {
      const unitless = problem.right === dimensionName(NUMBER);
      const place = note.placeOf(problem.at);
      return [{ code: 'unit-mismatch', what: 'band', band, wants: problem.left, got: problem.right, unitless, example: checked.kind.unit, place }];
    }
    if (problem?.code === 'dimensions-differ') {
      const { operator, left, right } = problem;
      return [{ code: 'unit-mismatch', what: 'arithmetic', band, operator, left, right, place: note.placeOf(problem.at) }];
    }
    if (problem?.code === 'not-arithmetic') {
      return [
        {
          code: 'unit-mismatch',
          what: 'arithmetic',
          band,
          operator: problem.operator,
          left: problem.got,
          right: '',
          place: note.placeOf(problem.at),
        },
      ];
    }
    return [];
  });
}

function ofUnit(step: ReadingStep, places: StepPlaces): readonly TreeProblem[] {
  if (step.unit === undefined) return [];
  const kind = quantityKind(step.takes);
  if (unitOf(step.unit)?.dimension === kind.dimension) return [];
  return [{ code: 'unit-mismatch', what: 'unit', unit: step.unit, takes: step.takes, example: kind.unit, place: attributePlace(places, 'unit') }];
}

function ofSets(step: ReadingStep, places: StepPlaces, { facts }: RuleInput): readonly TreeProblem[] {
  const fact = step.sets === undefined ? undefined : facts.specs.get(step.sets);
  if (!fact || step.sets === undefined) return [];
  const got = isChoice(fact) ? 'a choice' : fact.quantity;
  // Continuity is ohms with a buzzer.
  const same = got === step.takes || (got === 'resistance' && step.takes === 'continuity');
  return same ? [] : [{ code: 'unit-mismatch', what: 'sets', fact: step.sets, wants: got, got: step.takes, place: attributePlace(places, 'sets') }];
}

function benchFacts({ tree, places, benches }: RuleInput): readonly TreeProblem[] {
  const seen = new Map<string, string>();
  return benches.flatMap((bench) =>
    Object.entries(bench.facts).flatMap(([name, { quantity }]): TreeProblem[] => {
      const own = Object.hasOwn(tree.facts, name) ? tree.facts[name] : undefined;
      const got = own === undefined ? (seen.get(name) ?? quantity) : isChoice(own) ? 'a choice' : own.quantity;
      seen.set(name, quantity);
      if (got === quantity) return [];
      const place = own === undefined ? keyPlace(places, 'benches') : keyPlace(places, `facts.${name}.${isChoice(own) ? 'choices' : 'quantity'}`);
      return [{ code: 'unit-mismatch', what: 'bench-fact', fact: name, wants: quantity, got, place }];
    }),
  );
}
