import { handoffOf } from '../handoff-of.ts';
import { isChoice, waysOf } from '../tree.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { eachStep, type StepView } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';

/** Whatever a tech can meet at a step, some way on takes it up. */
export function wayOnMissing(input: RuleInput): readonly TreeProblem[] {
  const ofSteps = eachStep(input, (view) => (view.note.doubtfulWays ? [] : ofStep(view, input)));
  return [...ofSteps, ...noHandoff(input)];
}

function ofStep({ step, places, index, note }: StepView, input: RuleInput): readonly TreeProblem[] {
  const ways = waysOf(step);
  const place = places.task;
  const { title } = step;
  switch (step.kind) {
    case 'act':
      return ways.length === 0 && step.cannot ? [{ code: 'way-on-missing', why: 'act-done', title, place }] : [];
    case 'look':
      return ways.length === 1 || (ways.length === 0 && step.cannot) ? [{ code: 'way-on-missing', why: 'look-labels', title, place }] : [];
    case 'reading':
      return input.bands[index]?.partition.some((p) => p.code === 'open-not-covered')
        ? [{ code: 'way-on-missing', why: 'reading-open', title, place }]
        : [];
    case 'ask': {
      const fact = input.facts.specs.get(step.fact);
      if (note.doubtfulTask || !fact || !isChoice(fact) || ways.length === 0 || ways.some((way) => way.on === 'known')) return [];
      return fact.choices
        .filter((choice) => !ways.some((way) => way.on === choice))
        .map((choice) => ({ code: 'way-on-missing', why: 'ask-choice', title, fact: step.fact, choice, place }));
    }
    default:
      return [];
  }
}

/** Some step may be one that cannot be done; then there is somewhere to go. Told once, at the first such step. */
function noHandoff({ tree, places, notes }: RuleInput): readonly TreeProblem[] {
  if (handoffOf(tree) !== undefined || notes.some((note) => note.doubtfulTask || note.doubtfulWays)) return [];
  const index = tree.steps.findIndex((step) => step.kind !== 'finding' && step.kind !== 'handoff' && !step.cannot);
  const step = tree.steps[index];
  const place = places.steps[index]?.task;
  return step && place ? [{ code: 'way-on-missing', why: 'no-handoff', title: step.title, step: step.id, place }] : [];
}
