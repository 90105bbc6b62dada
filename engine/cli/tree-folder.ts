import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import { type Bench, namesOf, readBench } from '../bench/index.ts';
import type { Problem } from '../problem.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import { readTree, type Surroundings, type Tree, type TreePlaces } from '../tree/index.ts';
import type { EditionSources } from '../walk/index.ts';

const TREE = '.tree.mdx';
const BENCH = '.bench.yaml';
const FIGURE_TYPES: Readonly<Record<string, string>> = { '.png': 'image/png', '.jpg': 'image/jpeg', '.svg': 'image/svg+xml', '.webp': 'image/webp' };
const OTHER_TREE = /([a-z0-9-]+)\.tree\.mdx/g;

export type ReadFile = { readonly file: string; readonly problems: readonly Problem[] };
export type ReadTreeFile = ReadFile & { readonly tree?: Tree; readonly places: TreePlaces };
export type ReadBenchFile = ReadFile & { readonly bench?: Bench };

export const isTreeFile = (file: string): boolean => file.endsWith(TREE);
export const isBenchFile = (file: string): boolean => file.endsWith(BENCH);
export const treeName = (file: string): string => basename(file, TREE);

/**
 * One folder of trees with its `benches/` and `figures/`: what a tree names is read from beside it, each file once. Files
 * that a tree names and that are not there are problems of the tree, not of this folder.
 */
export class TreeFolder {
  private readonly trees = new Map<string, ReadTreeFile>();
  private readonly outlines = new Map<string, Tree | undefined>();
  private readonly benches = new Map<string, ReadBenchFile | undefined>();

  constructor(readonly folder: string) {}

  /** Every tree file of the folder, by path, in name order. */
  treeFiles(): readonly string[] {
    return readdirSync(this.folder)
      .filter(isTreeFile)
      .sort()
      .map((name) => join(this.folder, name));
  }

  bench(name: string): ReadBenchFile | undefined {
    if (!this.benches.has(name)) {
      const file = join(this.folder, 'benches', `${name}${BENCH}`);
      this.benches.set(name, existsSync(file) ? readBenchFile(file) : undefined);
    }
    return this.benches.get(name);
  }

  /** A tree read and checked with everything that it names. */
  tree(name: string): ReadTreeFile | undefined {
    const file = join(this.folder, `${name}${TREE}`);
    if (!existsSync(file)) return undefined;
    const known = this.trees.get(name);
    if (known) return known;
    const source = readFileSync(file, 'utf8');
    const { tree, problems, places } = readTree(source, { file, surroundings: this.surroundings(name, source) });
    const read = { file, problems, places, ...(tree && { tree }) };
    this.trees.set(name, read);
    return read;
  }

  /** A tree's steps and titles, without its own checks: enough for another tree to link to. */
  private outline(name: string): Tree | undefined {
    if (!this.outlines.has(name)) {
      const file = join(this.folder, `${name}${TREE}`);
      const nothing: Surroundings = { benches: {}, trees: {}, functions: TRADE_FUNCTIONS };
      this.outlines.set(name, existsSync(file) ? readTree(readFileSync(file, 'utf8'), { file, surroundings: nothing }).tree : undefined);
    }
    return this.outlines.get(name);
  }

  private surroundings(self: string, source: string): Surroundings {
    const named = [...source.matchAll(OTHER_TREE)].flatMap((match) => match[1] ?? []).filter((name) => name !== self);
    const trees: Record<string, Surroundings['trees'][string]> = {};
    for (const name of new Set(named)) {
      const tree = this.outline(name);
      if (tree)
        trees[name] = { title: tree.title, first: tree.steps[0]?.id ?? '', steps: Object.fromEntries(tree.steps.map((s) => [s.id, s.title])) };
    }
    const benches: Record<string, Surroundings['benches'][string]> = {};
    for (const file of this.benchNames()) {
      const bench = source.includes(file) ? this.bench(file)?.bench : undefined;
      if (bench) benches[file] = namesOf(bench);
    }
    return { trees, benches, functions: TRADE_FUNCTIONS, figures: this.figurePaths() };
  }

  private benchNames(): readonly string[] {
    const folder = join(this.folder, 'benches');
    if (!existsSync(folder)) return [];
    return readdirSync(folder)
      .filter(isBenchFile)
      .map((file) => basename(file, BENCH));
  }

  figurePaths(): readonly string[] {
    const folder = join(this.folder, 'figures');
    if (!existsSync(folder)) return [];
    return readdirSync(folder)
      .filter((file) => Object.hasOwn(FIGURE_TYPES, extname(file)))
      .map((file) => `figures/${file}`);
  }

  /** What an edition of one tree of this folder is made from; only trees that can be read are in it. */
  sources(root: string): EditionSources {
    const trees: Record<string, Tree> = {};
    const benches: Record<string, Bench> = {};
    const waiting = [root];
    for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
      if (Object.hasOwn(trees, name)) continue;
      const tree = this.tree(name)?.tree;
      if (!tree) continue;
      trees[name] = tree;
      for (const bench of tree.benches) {
        const read = this.bench(bench)?.bench;
        if (read) benches[bench] = read;
      }
      for (const other of linkedTrees(tree)) waiting.push(other);
    }
    return { trees, benches, figures: this.figures() };
  }

  private figures(): Readonly<Record<string, string>> {
    return Object.fromEntries(
      this.figurePaths().map((path) => [
        path,
        `data:${FIGURE_TYPES[extname(path)] ?? ''};base64,${readFileSync(join(this.folder, path)).toString('base64')}`,
      ]),
    );
  }
}

/** The names of the other trees that a tree's ways lead to. */
export function linkedTrees(tree: Tree): readonly string[] {
  const targets = tree.steps.flatMap((step) => [...('ways' in step ? step.ways.map((way) => way.to) : []), ...(step.cannot ? [step.cannot] : [])]);
  return [...new Set(targets.flatMap((target) => target.tree ?? []))];
}

export function readBenchFile(file: string): ReadBenchFile {
  const { bench, problems } = readBench(readFileSync(file, 'utf8'), { file });
  return { file, problems, ...(bench && { bench }) };
}

/** The folder that a file's trees stand in; a bench stands one folder below. */
export const folderOf = (file: string): string => (isBenchFile(file) ? dirname(dirname(file)) : dirname(file));
