import { type Way, waysOf } from '../tree.ts';
import type { TreeProblem } from '../tree-problem.ts';
import { eachStep } from './each-step.ts';
import type { RuleInput } from './rule-input.ts';
import { shownEdge, shownFacts } from './shown-facts.ts';

/** No value of a reading falls in two bands, whatever the facts are. */
export function bandOverlap(input: RuleInput): readonly TreeProblem[] {
  return eachStep(input, ({ step, places, index }) => {
    const checked = input.bands[index];
    const ways: readonly Way[] = waysOf(step);
    const unit = step.kind === 'reading' ? step.unit : undefined;
    return (checked?.partition ?? []).flatMap((problem): TreeProblem[] => {
      if (!checked || (problem.code !== 'overlap' && problem.code !== 'repeated')) return [];
      const [first = 0, second = 0] = problem.bands.map((band) => checked.bands[band]?.way ?? 0);
      // Pointed at the one that stands later: it is the one that was added.
      const place = places.ways[Math.max(first, second)]?.on ?? places.task;
      if (problem.code === 'repeated') return [{ code: 'band-overlap', repeated: ways[first]?.on ?? '', place }];
      const from = shownEdge(problem.from, checked.takes, unit);
      const to = shownEdge(problem.to, checked.takes, unit);
      const bands = [ways[first]?.on ?? '', ways[second]?.on ?? ''] as const;
      return [{ code: 'band-overlap', from, to, bands, facts: shownFacts(problem.facts, input.facts), place }];
    });
  });
}
