import { didYouMean } from '../did-you-mean.ts';
import { keyPlace } from '../tree-places.ts';
import type { TreeProblem } from '../tree-problem.ts';
import type { RuleInput } from './rule-input.ts';

/** Every bench that the tree names is there. */
export function unknownBench({ tree, places, surroundings }: RuleInput): readonly TreeProblem[] {
  const known = Object.keys(surroundings.benches);
  return tree.benches.flatMap((name, i): TreeProblem[] =>
    known.includes(name)
      ? []
      : [{ code: 'unknown-bench', name, known, suggestion: didYouMean(name, known), place: keyPlace(places, `benches.${i}`) }],
  );
}
