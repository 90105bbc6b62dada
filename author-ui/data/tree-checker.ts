import { namesOf, type ReadBench, readBench } from '../../engine/bench/index.ts';
import type { Problem } from '../../engine/problem.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { type FactSpec, type ReadTree, readTree, type Surroundings, type Tree, type TreePlaces } from '../../engine/tree/index.ts';
import type { Sources } from './fetch-sources.ts';
import { factsOf, outlineOf, pathProblems } from './read-shelf.ts';

/** What a tree may name, as plain data. */
export type SurroundingNames = Pick<Surroundings, 'benches' | 'trees'> & { readonly figures: readonly string[] };

/** A text, what was read from it, and what is wrong with it. */
export type CheckedTree = {
  /** The text that all of this is about. */
  readonly text: string;
  /** Absent where the text has errors of form: then it can be put right as text only. */
  readonly tree?: Tree;
  readonly places: TreePlaces;
  readonly problems: readonly Problem[];
  /** What is asked of a site: the tree's own facts, then those of its benches. */
  readonly facts: Readonly<Record<string, FactSpec>>;
  readonly names: SurroundingNames;
};

/** Reads a tree with all that it names, again and again while it is written; what has not changed is not read again. */
export class TreeChecker {
  readonly #benches = new Map<string, { readonly text: string; readonly read: ReadBench; readonly names?: Surroundings['benches'][string] }>();
  readonly #outlines = new Map<string, { readonly text: string; readonly outline: Surroundings['trees'][string] | undefined }>();

  /** What reading the text shows. */
  read(name: string, sources: Sources): CheckedTree & { readonly read: ReadTree } {
    const text = sources.trees[name] ?? '';
    const names = this.#names(name, sources);
    const read = readTree(text, { file: `trees/${name}.tree.mdx`, surroundings: { ...names, functions: TRADE_FUNCTIONS } });
    const { tree, places, problems } = read;
    return { text, read, places, problems, names, facts: tree ? factsOf(tree, names.benches) : {}, ...(tree && { tree }) };
  }

  /** What can hurt someone on a path of the tree; nothing where its text has errors still. */
  paths(name: string, sources: Sources, read: ReadTree): readonly Problem[] {
    const benches = Object.entries(sources.benches).flatMap(([bench, text]) => {
      const found = this.#bench(bench, text).read.bench;
      return found ? [[bench, found] as const] : [];
    });
    const others = Object.keys(sources.trees).flatMap((other) => {
      const tree = other === name ? read.tree : this.#leadsTo(name, other, sources) ? this.read(other, sources).tree : undefined;
      return tree ? [[other, tree] as const] : [];
    });
    const figures = Object.fromEntries(Object.keys(sources.figures).map((path) => [path, 'data:image/png;base64,AA==']));
    return pathProblems(name, read, { trees: Object.fromEntries(others), benches: Object.fromEntries(benches), figures });
  }

  #leadsTo(name: string, other: string, { trees }: Sources): boolean {
    const seen = new Set<string>();
    const look = (from: string): boolean => {
      if (seen.has(from)) return false;
      seen.add(from);
      const text = trees[from] ?? '';
      return (
        text.includes(`${other}.tree.mdx`) || Object.keys(trees).some((next) => next !== from && text.includes(`${next}.tree.mdx`) && look(next))
      );
    };
    return look(name);
  }

  #bench(name: string, text: string) {
    const known = this.#benches.get(name);
    if (known?.text === text) return known;
    const read = readBench(text, { file: `trees/benches/${name}.bench.yaml` });
    const fresh = { text, read, ...(read.bench && { names: namesOf(read.bench) }) };
    this.#benches.set(name, fresh);
    return fresh;
  }

  #outline(name: string, text: string) {
    const known = this.#outlines.get(name);
    if (known?.text === text) return known.outline;
    const outline = outlineOf(name, text);
    this.#outlines.set(name, { text, outline });
    return outline;
  }

  /** All other trees, whether led to or not: a form offers them as places to lead to. */
  #names(name: string, sources: Sources): SurroundingNames {
    const benches = Object.entries(sources.benches).flatMap(([bench, text]) => {
      const { names } = this.#bench(bench, text);
      return names ? [[bench, names] as const] : [];
    });
    const trees = Object.entries(sources.trees).flatMap(([other, text]) => {
      const outline = other === name ? undefined : this.#outline(other, text);
      return outline ? [[other, outline] as const] : [];
    });
    return { benches: Object.fromEntries(benches), trees: Object.fromEntries(trees), figures: Object.keys(sources.figures) };
  }
}
