import { quantityText } from '../quantity-text.ts';
import { isChoice } from '../tree.ts';
import { keyPlace } from '../tree-places.ts';
import type { Expected, TreeProblem } from '../tree-problem.ts';
import type { RuleInput } from './rule-input.ts';

/** The words that a way on of an Ask has a meaning of its own for. */
const RESERVED = ['known', 'cannot'];

/** What a fact usually is lies in its range, or is one of its choices. */
export function factRange({ tree, places }: RuleInput): readonly TreeProblem[] {
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
    const [usual, from, to] = [fact.usual, fact.from, fact.to].map((text) => quantityText(text, fact.quantity));
    if (typeof usual !== 'object' || typeof from !== 'object' || typeof to !== 'object') return [];
    if (from.si > to.si) return [wrong('from', fact.from, { form: 'range-in-order' })];
    return usual.si < from.si || usual.si > to.si ? [wrong('usual', fact.usual, { form: 'usual-in-range' })] : [];
  });
}
