import type { BenchNames } from '../surroundings.ts';
import type { TreeDraft } from '../tree-draft.ts';
import { type CheckedBands, checkedBands } from './checked-bands.ts';
import { type FactScope, factScope } from './fact-scope.ts';
import { type StepGraph, stepGraph } from './step-graph.ts';

/** What the rules look at: the file as read, and what several of them need, computed once. */
export type RuleInput = TreeDraft & {
  /** The tree's benches that there are. */
  readonly benches: readonly BenchNames[];
  /** Every bench that the tree names is there, so that a name which none of them has is wrong. False where it names none. */
  readonly benchesKnown: boolean;
  readonly facts: FactScope;
  /** The states of each setting of the tree and its benches, first as found. */
  readonly settings: ReadonlyMap<string, readonly string[]>;
  readonly graph: StepGraph;
  /** As `tree.steps`. */
  readonly bands: readonly (CheckedBands | undefined)[];
};

export function ruleInput(draft: TreeDraft): RuleInput {
  const { tree, surroundings, notes } = draft;
  const benches = tree.benches.flatMap((name) => (Object.hasOwn(surroundings.benches, name) ? (surroundings.benches[name] ?? []) : []));
  const facts = factScope(tree, benches);
  const settings = new Map<string, readonly string[]>();
  for (const bench of benches) {
    for (const [name, states] of Object.entries(bench.settings)) settings.set(name, [...new Set([...(settings.get(name) ?? []), ...states])]);
  }
  for (const [name, states] of Object.entries(tree.settings)) settings.set(name, states);
  return {
    ...draft,
    benches,
    benchesKnown: benches.length > 0 && benches.length === tree.benches.length,
    facts,
    settings,
    graph: stepGraph(tree),
    bands: tree.steps.map((step, i) => {
      const note = notes[i];
      return note && draft.frontMatterReadable ? checkedBands(step, note, facts, draft) : undefined;
    }),
  };
}
