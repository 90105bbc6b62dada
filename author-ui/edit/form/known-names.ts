import type { BenchNames, Tree } from '../../../engine/tree/index.ts';
import type { SurroundingNames } from '../../data/tree-checker.ts';

/** What a tree may name of its benches, each name once. */
export type KnownNames = {
  readonly terminals: readonly string[];
  readonly leads: readonly string[];
  readonly signs: readonly string[];
  readonly faults: readonly string[];
  readonly places: readonly string[];
  readonly settings: Readonly<Record<string, readonly string[]>>;
};

const once = (names: readonly string[]): readonly string[] => [...new Set(names)];

/** The names of a tree's benches together with its own settings. */
export function knownNames(tree: Tree, { benches }: SurroundingNames): KnownNames {
  const named = tree.benches.flatMap((name): BenchNames[] => (benches[name] ? [benches[name]] : []));
  const settings: Record<string, readonly string[]> = {};
  for (const bench of named)
    for (const [name, states] of Object.entries(bench.settings)) settings[name] = once([...(settings[name] ?? []), ...states]);
  return {
    terminals: once(named.flatMap(({ terminals }) => terminals)),
    leads: once(named.flatMap(({ leads }) => leads)),
    signs: once(named.flatMap(({ signs }) => signs)),
    faults: once(named.flatMap(({ faults }) => faults)),
    places: once(named.flatMap(({ places }) => places ?? [])),
    settings: { ...settings, ...tree.settings },
  };
}
