import { type Bench, readBench } from '../../engine/bench/index.ts';
import type { Problem } from '../../engine/problem.ts';
import type { PlacesByTree } from '../../engine/proof/index.ts';
import { failure, type Result, success } from '../../engine/result.ts';
import { cannotOf, type Tree, type TreePlaces, waysOf } from '../../engine/tree/index.ts';
import { buildEdition, type Edition, type EditionProblem } from '../../engine/walk/index.ts';
import type { Sources } from '../data/fetch-sources.ts';
import { TreeChecker } from '../data/tree-checker.ts';

/** An edition made of the desk's files as they stand, with what their own checks say of them. */
export type DeskEdition = { readonly edition: Edition; readonly places: PlacesByTree; readonly problems: readonly Problem[] };

/** Why there is none: errors in the files, or something that the files do not have. */
export type NoDeskEdition = { readonly problems: readonly Problem[]; readonly why?: EditionProblem };

/** Gathers a tree with every tree it leads to and every bench they name. Files with errors make no edition. */
export function deskEdition(root: string, sources: Sources): Result<DeskEdition, NoDeskEdition> {
  const checker = new TreeChecker();
  const trees: Record<string, Tree> = {};
  const places: Record<string, TreePlaces> = {};
  const benches: Record<string, Bench> = {};
  const problems: Problem[] = [];
  const benchNames = new Set<string>();
  const seen = new Set<string>();
  const waiting = [root];
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    if (seen.has(name) || !Object.hasOwn(sources.trees, name)) continue;
    seen.add(name);
    const read = checker.read(name, sources);
    problems.push(...read.problems);
    places[name] = read.places;
    if (!read.tree) continue;
    trees[name] = read.tree;
    for (const bench of read.tree.benches) benchNames.add(bench);
    for (const step of read.tree.steps) {
      const cannot = cannotOf(read.tree, step);
      const targets = [...waysOf(step).map(({ to }) => to), ...(cannot ? [cannot] : [])];
      for (const { tree } of targets) if (tree !== undefined) waiting.push(tree);
    }
  }
  for (const name of benchNames) {
    const text = sources.benches[name];
    if (text === undefined) continue;
    const read = readBench(text, { file: `trees/benches/${name}.bench.yaml` });
    problems.push(...read.problems);
    if (read.bench) benches[name] = read.bench;
  }
  if (problems.some(({ severity }) => severity === 'error')) return failure({ problems });
  const built = buildEdition(root, { trees, benches, figures: sources.figures });
  return built.ok ? success({ edition: built.value, places, problems }) : failure({ problems, why: built.problem });
}
