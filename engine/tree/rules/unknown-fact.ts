import type { Place } from '../../problem.ts';
import { didYouMean } from '../did-you-mean.ts';
import { attributePlace } from '../tree-places.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';

/** Every fact that a band, an Ask or a Reading names is a fact of the tree or of its benches. */
export function unknownFact(input: RuleInput): readonly TreeProblem[] {
  if (!input.frontMatterReadable || input.benches.length < input.tree.benches.length) return [];
  const unknown = (name: string, known: readonly string[], place: Place): readonly TreeProblem[] =>
    input.doubtfulNames.has(name) ? [] : [{ code: 'unknown-fact', name, known, suggestion: didYouMean(name, known), place }];
  const all = [...input.facts.specs.keys()];
  return eachStep(input, ({ step, places, note, index }) => {
    const named = note.doubtfulTask
      ? []
      : step.kind === 'ask'
        ? [['fact', step.fact] as const]
        : step.kind === 'reading' && step.sets
          ? [['sets', step.sets] as const]
          : [];
    return [
      ...named.flatMap(([attribute, name]) => (input.facts.specs.has(name) ? [] : unknown(name, all, attributePlace(places, attribute)))),
      ...(input.bands[index]?.bands ?? []).flatMap(({ note: band, problem }) =>
        problem?.code === 'unknown-name' ? unknown(problem.name, problem.known, band.placeOf(problem.at)) : [],
      ),
    ];
  });
}
