import { didYouMean } from '../did-you-mean.ts';
import type { BenchNames } from '../surroundings.ts';
import type { Step } from '../tree.ts';
import { attributePlace } from '../tree-places.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';

/** A name that a step's component uses, and the list of its benches that it must be on. */
export type BenchName = { readonly attribute: string; readonly name: string; readonly on: 'points' | 'leads' | 'places' | 'signs' | 'faults' };

type NameCode = 'unknown-terminal' | 'unknown-sign' | 'unknown-fault';

function namesOn(bench: BenchNames, on: BenchName['on']): readonly string[] {
  if (on === 'points') return [...bench.terminals, ...bench.leads];
  return on === 'places' ? (bench.places ?? []) : bench[on];
}

/** A rule that every such name is one that some bench of the tree has. Says nothing of a tree whose benches are not all there. */
export function benchNamesRule(code: NameCode, namesOf: (step: Step) => readonly BenchName[]) {
  return (input: RuleInput): readonly TreeProblem[] => {
    if (!input.benchesKnown) return [];
    const noPlaces = input.benches.some((bench) => bench.places === undefined);
    const lists = new Map<BenchName['on'], ReadonlySet<string>>();
    const known = (on: BenchName['on']): ReadonlySet<string> => {
      const list = lists.get(on) ?? new Set(input.benches.flatMap((bench) => namesOn(bench, on)));
      lists.set(on, list);
      return list;
    };
    return eachStep(input, ({ step, places, note }) => {
      if (note.doubtfulTask) return [];
      return namesOf(step)
        .filter(({ on, name }) => !known(on).has(name) && !(on === 'places' && noPlaces))
        .map(({ attribute, name, on }) => ({
          code,
          name,
          of: on,
          known: [...known(on)],
          suggestion: didYouMean(name, known(on)),
          place: attributePlace(places, attribute),
        }));
    });
  };
}
