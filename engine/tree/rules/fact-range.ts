import { isChoice } from '../tree.ts';
import { keyPlace } from '../tree-places.ts';
import type { Expected, TreeProblem } from '../tree-problem.ts';
import type { RuleInput } from './rule-input.ts';

/** The words that a way on of an Ask has a meaning of its own for. */
const RESERVED = ['known', 'cannot'];

/** What a fact usually is lies in its range, or is one of its choices. */
export function factRange({ tree, places, facts }: RuleInput): readonly TreeProblem[] {
  return Object.entries(tree.facts).flatMap(([name, fact]): TreeProblem[] => {
    const wrong = (key: string, got: string, expected: Expected): TreeProblem => ({
      code: 'bad-attribute',
      owner: `fact ${name}`,
      name: key,
      fault: 'wrong',
      got,
      expected,
      place: keyPlace(places, `facts.${name}.${key}`),
    });
    if (isChoice(fact)) {
      const reserved = fact.choices.find((choice) => RESERVED.includes(choice));
      if (reserved !== undefined) return [wrong('choices', reserved, { form: 'choices' })];
      return fact.choices.includes(fact.usual) ? [] : [wrong('usual', fact.usual, { form: 'usual-choice' })];
    }
    const range = facts.ranges.get(name);
    if (!range) return [];
    if (range.from > range.to) return [wrong('from', fact.from, { form: 'range-in-order' })];
    return range.usual < range.from || range.usual > range.to ? [wrong('usual', fact.usual, { form: 'usual-in-range' })] : [];
  });
}
