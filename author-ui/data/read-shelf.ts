import { type Bench, namesOf, readBench } from '../../engine/bench/index.ts';
import type { Problem } from '../../engine/problem.ts';
import { proveSafety, safetyProblems } from '../../engine/proof/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { type FactSpec, type ReadTree, readTree, type Surroundings, type Tree } from '../../engine/tree/index.ts';
import { buildEdition, compileEdition, type EditionSources } from '../../engine/walk/index.ts';
import type { EditionEntry, Sources } from './fetch-sources.ts';

/** A file on the shelf: where it stands in the repository, as problems name it, its text, and what is wrong with it. */
export type ShelfFile = { readonly name: string; readonly file: string; readonly source: string; readonly problems: readonly Problem[] };

export type ShelfTree = ShelfFile & {
  /** Absent where the source is too broken to be a tree at all. */
  readonly tree?: Tree;
  /** What is asked of a site: the tree's own facts, then those of its benches. */
  readonly facts: Readonly<Record<string, FactSpec>>;
  readonly edition?: EditionEntry;
};

export type ShelfBench = ShelfFile & {
  /** Absent where the source is too broken to be a bench at all. */
  readonly bench?: Bench;
  /** Names of the trees that are checked against it. */
  readonly usedBy: readonly string[];
};

/** Everything the desk shows, read. */
export type Shelf = {
  /** In order of title. */
  readonly trees: readonly ShelfTree[];
  readonly benches: readonly ShelfBench[];
  /** Addresses of the pictures by their path, such as `figures/valve.png`. */
  readonly figures: Readonly<Record<string, string>>;
};

const OTHER_TREE = /([a-z0-9-]+)\.tree\.mdx/g;

/** Stands for the picture itself, which is of no account to a check. */
const ANY_PICTURE = 'data:image/png;base64,AA==';

/** Reads and checks every bench and every tree with all that it names, as the command line's `check` does. */
export function readShelf(sources: Sources): Shelf {
  const benches = Object.entries(sources.benches).map(([name, source]) => {
    const file = `trees/benches/${name}.bench.yaml`;
    return { name, file, source, ...readBench(source, { file }) };
  });
  const names: Record<string, Surroundings['benches'][string]> = {};
  for (const { name, bench } of benches) if (bench) names[name] = namesOf(bench);
  const surroundings = { benches: names, trees: outlinesOf(sources.trees), functions: TRADE_FUNCTIONS, figures: Object.keys(sources.figures) };
  const reads = Object.entries(sources.trees).map(([name, source]) => {
    const file = `trees/${name}.tree.mdx`;
    return { name, file, source, read: readTree(source, { file, surroundings }) };
  });

  const editionSources: EditionSources = {
    trees: Object.fromEntries(reads.flatMap(({ name, read }) => (read.tree ? [[name, read.tree]] : []))),
    benches: Object.fromEntries(benches.flatMap(({ name, bench }) => (bench ? [[name, bench]] : []))),
    figures: Object.fromEntries(Object.keys(sources.figures).map((path) => [path, ANY_PICTURE])),
  };
  const trees = reads.map(({ name, file, source, read }): ShelfTree => {
    const edition = sources.editions.find((entry) => entry.name === name);
    const facts = read.tree ? factsOf(read.tree, names) : {};
    const problems = [...read.problems, ...pathProblems(name, read, editionSources)];
    return { name, file, source, problems, facts, ...(read.tree && { tree: read.tree }), ...(edition && { edition }) };
  });
  const shelfBenches = benches.map(({ name, file, source, bench, problems }): ShelfBench => {
    const usedBy = trees.filter(({ tree }) => tree?.benches.includes(name)).map((tree) => tree.name);
    return { name, file, source, problems, usedBy, ...(bench && { bench }) };
  });
  return {
    trees: trees.sort((a, b) => titleOf(a).localeCompare(titleOf(b))),
    benches: shelfBenches.sort((a, b) => benchTitle(a).localeCompare(benchTitle(b))),
    figures: sources.figures,
  };
}

/** The titles and steps of each tree that another one leads to. */
function outlinesOf(texts: Sources['trees']): Surroundings['trees'] {
  const linked = new Set(
    Object.entries(texts).flatMap(([name, text]) =>
      [...text.matchAll(OTHER_TREE)].flatMap((match) => match[1] ?? []).filter((other) => other !== name),
    ),
  );
  const outlines: Record<string, Surroundings['trees'][string]> = {};
  for (const name of linked) {
    const text = texts[name];
    const outline = text === undefined ? undefined : outlineOf(name, text);
    if (outline) outlines[name] = outline;
  }
  return outlines;
}

/** What other trees may know of one; undefined where its text is no tree. */
export function outlineOf(name: string, text: string): Surroundings['trees'][string] | undefined {
  const { tree } = readTree(text, { file: `${name}.tree.mdx`, surroundings: { benches: {}, trees: {}, functions: TRADE_FUNCTIONS } });
  if (!tree) return undefined;
  const steps = Object.fromEntries(tree.steps.map((step) => [step.id, step.title]));
  return { title: tree.title, first: tree.steps[0]?.id ?? '', steps };
}

/** What can hurt someone on a path of a tree whose own text is right. */
export function pathProblems(name: string, { problems, places }: ReadTree, sources: EditionSources): readonly Problem[] {
  if (problems.some(({ severity }) => severity === 'error')) return [];
  const edition = buildEdition(name, sources);
  return edition.ok ? safetyProblems(proveSafety(compileEdition(edition.value, TRADE_FUNCTIONS)).findings, { [name]: places }) : [];
}

/** Where both name a fact, the tree decides how it is asked. */
export function factsOf(tree: Tree, benches: Surroundings['benches']): ShelfTree['facts'] {
  return Object.assign({ ...tree.facts }, ...tree.benches.map((name) => benches[name]?.facts ?? {}), tree.facts);
}

/** What a tree is called on screen; its file name where its title cannot be read. */
export const titleOf = ({ tree, edition, name }: ShelfTree): string => tree?.title ?? edition?.title ?? name;

export const complaintOf = ({ tree, edition }: ShelfTree): string | undefined => tree?.complaint ?? edition?.complaint;

/** What a bench is called on screen; its file name where its title cannot be read. */
export const benchTitle = ({ bench, name }: ShelfBench): string => bench?.title ?? name;
