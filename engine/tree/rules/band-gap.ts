import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';
import { shownEdge, shownFacts } from './shown-facts.ts';

/** The bands of a reading leave no value without a way on, whatever the facts are. */
export function bandGap(input: RuleInput): readonly TreeProblem[] {
  return eachStep(input, ({ step, places, index }) => {
    const checked = input.bands[index];
    const unit = step.kind === 'reading' ? step.unit : undefined;
    return (checked?.partition ?? []).flatMap((problem): TreeProblem[] => {
      if (!checked || problem.code !== 'gap') return [];
      // The band below the gap, or where the gap begins at the lowest value, the one above it.
      const way = checked.bands[problem.after ?? problem.before ?? 0]?.way ?? 0;
      const from = shownEdge(problem.from, checked.takes, unit);
      const to = shownEdge(problem.to, checked.takes, unit);
      return [{ code: 'band-gap', from, to, facts: shownFacts(problem.facts, input.facts), place: places.ways[way]?.on ?? places.task }];
    });
  });
}
