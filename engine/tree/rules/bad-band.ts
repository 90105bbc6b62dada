import type { FormulaProblem, PartitionProblem } from '../../formula/index.ts';
import { didYouMean } from '../did-you-mean.ts';
import { waysOf } from '../tree.ts';
import type { BandFault, TreeProblem } from '../tree-problem.ts';
import type { CheckedBands } from './checked-bands.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';
import { shownEdge, shownFacts } from './shown-facts.ts';

/** Every band can be read, and computed, and holds some value, whatever the facts are. */
export function badBand(input: RuleInput): readonly TreeProblem[] {
  return eachStep(input, ({ step, places, index }) => {
    const checked = input.bands[index];
    if (!checked) return [];
    const band = (way: number): string => waysOf(step)[way]?.on ?? '';
    const unread = checked.bands.flatMap(({ way, note, problem }): TreeProblem[] => {
      const fault = problem && unreadable(problem);
      return problem && fault ? [{ code: 'bad-band', band: band(way), ...fault, place: note.placeOf(problem.at) }] : [];
    });
    const neverOpen = checked.bands.flatMap(({ way, note }): TreeProblem[] => {
      if (!note.band.ok || note.band.value.kind !== 'open' || (checked.kind.open && step.kind === 'reading')) return [];
      return [{ code: 'bad-band', band: band(way), why: 'never-open', takes: checked.takes, place: places.ways[way]?.on ?? places.task }];
    });
    const unit = step.kind === 'reading' ? step.unit : undefined;
    const uncomputed = checked.partition.flatMap((problem): TreeProblem[] => {
      const fault = uncomputable(problem, checked, unit, input);
      const at = fault && checked.bands['band' in problem ? problem.band : 0];
      return fault && at ? [{ code: 'bad-band', band: band(at.way), ...fault, place: places.ways[at.way]?.on ?? places.task }] : [];
    });
    return [...unread, ...neverOpen, ...uncomputed];
  });
}

function unreadable(problem: FormulaProblem): BandFault | undefined {
  switch (problem.code) {
    case 'cannot-read':
      return { why: 'cannot-read', found: problem.found, expected: problem.expected };
    case 'unit-not-known':
      return { why: 'unit-not-known', found: problem.found };
    case 'unknown-function':
      return { why: 'unknown-function', name: problem.name, suggestion: didYouMean(problem.name, problem.known) };
    case 'wrong-arguments':
      return { why: 'wrong-arguments', name: problem.name, expected: problem.expected };
    default:
      return undefined;
  }
}

function uncomputable(problem: PartitionProblem, checked: CheckedBands, unit: string | undefined, { facts }: RuleInput): BandFault | undefined {
  if (problem.code === 'not-computable' && problem.problem.code === 'not-computable') {
    return { why: 'not-computable', what: problem.problem.why, facts: shownFacts(problem.facts, facts) };
  }
  if (problem.code !== 'empty') return undefined;
  const low = shownEdge(problem.low, checked.takes, unit) ?? 'nothing';
  const high = shownEdge(problem.high, checked.takes, unit) ?? 'nothing';
  return { why: 'empty', low, high, facts: shownFacts(problem.facts, facts) };
}
