import { bandInterval, factPoints } from '../../formula/index.ts';
import type { QuantityKindName } from '../../quantity/index.ts';
import type { ReadingStep } from '../tree.ts';
import { attributePlace } from '../tree-places.ts';
import type { Expected, TreeProblem } from '../tree-problem.ts';
import type { CheckedBands } from './checked-bands.ts';
import { eachStep } from './each-step.ts';
import { boxOf } from './fact-scope.ts';
import type { RuleInput } from './rule-input.ts';

const TWO_LEADS: ReadonlySet<QuantityKindName> = new Set(['ac-voltage', 'dc-voltage', 'resistance', 'continuity', 'capacitance', 'frequency']);
const VOLTAGE: ReadonlySet<QuantityKindName> = new Set(['ac-voltage', 'dc-voltage']);

/** The most that two points may read and still be called dead, V. Common practice: a few volts are stray; below any supply in the trade. */
const MOST_DEAD = 5;

/** A reading is taken across two points or at a place, as its kind needs; what only fits a voltage stands on one. */
export function readingShape(input: RuleInput): readonly TreeProblem[] {
  return eachStep(input, ({ step, places, note, index }) => {
    if (step.kind !== 'reading' || note.doubtfulTask) return [];
    const wrong = (name: string, got: string, expected: Expected): TreeProblem => ({
      code: 'bad-attribute',
      owner: 'Reading',
      name,
      fault: 'wrong',
      got,
      expected,
      place: attributePlace(places, name),
    });
    const missing = (name: string, expected: Expected): TreeProblem => ({
      code: 'bad-attribute',
      owner: 'Reading',
      name,
      fault: 'missing',
      expected,
      place: places.task,
    });
    const problems: TreeProblem[] = [];
    if (TWO_LEADS.has(step.takes)) {
      if (step.at !== undefined) problems.push(wrong('at', step.at, { form: 'across-not-at' }));
      else if (!step.across) problems.push(missing('across', { form: 'points' }));
    } else if (step.across) problems.push(wrong('across', step.across.join(' to '), { form: 'at-not-across' }));
    else if (step.at === undefined) problems.push(missing('at', { form: 'text' }));
    if (step.input && !VOLTAGE.has(step.takes)) problems.push(wrong('input', step.input, { form: 'only-on-voltage' }));
    if (step.proves) {
      if (!VOLTAGE.has(step.takes)) problems.push(wrong('proves', step.proves, { form: 'only-on-voltage' }));
      else if (!provesDead(step, input.bands[index], input)) problems.push(wrong('proves', step.proves, { form: 'low-band-within-5-volts' }));
    }
    return problems;
  });
}

/** Whether the lowest band is `below X`, and X is at most a few volts whatever the facts are. Not judged where a band cannot be read. */
function provesDead(step: ReadingStep, checked: CheckedBands | undefined, { facts, surroundings }: RuleInput): boolean {
  if (step.ways.length === 0 || checked?.bands.some((band) => band.problem)) return true;
  const lowest = checked?.bands.flatMap(({ note: { band } }) => (band.ok && band.value.kind === 'below' ? [band.value] : []))[0];
  if (!lowest) return false;
  return factPoints(boxOf([lowest], facts)).every((point) => {
    const interval = bandInterval(lowest, { value: (name) => point[name], functions: surroundings.functions });
    return interval === undefined || !(interval.high > MOST_DEAD);
  });
}
