import { didYouMean } from '../did-you-mean.ts';
import { type FactSpec, isChoice, type Step, waysOf } from '../tree.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';

/** What the ways on of a step may be taken on, where that is a list of words; undefined where it is not. */
function knownWords(step: Step, fact: FactSpec | undefined): readonly string[] | undefined {
  if (step.kind === 'act') return ['done'];
  if (step.kind !== 'ask' || !fact) return undefined;
  return isChoice(fact) ? [...fact.choices, 'known'] : undefined;
}

/** A way on is taken on something that can come of its step. */
export function wayFitsStep(input: RuleInput): readonly TreeProblem[] {
  return eachStep(input, ({ step, places, note }) => {
    const ways = waysOf(step);
    const fact = step.kind === 'ask' ? input.facts.specs.get(step.fact) : undefined;
    const words = note.doubtfulTask ? undefined : knownWords(step, fact);
    return ways.flatMap((way, i): TreeProblem[] => {
      const place = places.ways[i]?.on ?? places.task;
      if (words && !words.includes(way.on)) {
        return [{ code: 'bad-way', why: 'not-for-kind', text: way.on, kind: step.kind, known: words, suggestion: didYouMean(way.on, words), place }];
      }
      if (step.kind !== 'ask') return [];
      if (way.on === 'known') return ways.length > 1 ? [{ code: 'bad-way', why: 'known-with-others', text: way.on, place }] : [];
      // A bare word is a choice; on a fact that is a quantity it is neither a band nor `known`.
      return fact && !words && !note.bands[i]
        ? [{ code: 'bad-way', why: 'not-for-kind', text: way.on, kind: step.kind, known: ['known', 'a band'], place }]
        : [];
    });
  });
}
