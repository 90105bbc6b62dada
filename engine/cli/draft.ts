import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { namesOf, prepare, readBench } from '../bench/index.ts';
import { failure, type Result, success } from '../result.ts';
import { draftProblemWords, draftTree, treeMinutes } from '../suspects/index.ts';
import { TRADE_FUNCTIONS } from '../trade/index.ts';
import { writeTree } from '../tree/index.ts';
import { buildEdition, type CompiledEdition, compileEdition } from '../walk/index.ts';
import { problemLines } from './check.ts';
import { folderOf, isBenchFile, isTreeFile, TreeFolder, treeName } from './tree-folder.ts';

export type DraftReport = {
  readonly file: string;
  readonly steps: number;
  /** Expected minutes to the finding, and what no tree over the same readings stays below. */
  readonly minutes: number;
  readonly bound: number;
  readonly method: 'exact' | 'rollout';
  /** The crew's tree about this bench that says what its steps take; null where there is none, and the usual minutes are counted with. */
  readonly minutesFrom: string | null;
  /** Faults that no reading of the bench tells apart. */
  readonly ambiguous: readonly (readonly string[])[];
  /** What to know before the tree is used. */
  readonly notes: readonly string[];
};

/** Drafts a tree from a bench file into a new file. */
export function draftFile(file: string, out: string | undefined): Result<DraftReport, string> {
  if (!existsSync(file) || !isBenchFile(file)) return failure(`There is no bench ${file}. Name a .bench.yaml file.`);
  const { bench, problems } = readBench(readFileSync(file, 'utf8'), { file });
  if (!bench || problems.some(({ severity }) => severity === 'error'))
    return failure(`${file} cannot be drafted from until it is put right.\n${problemLines(problems)}`);
  const name = basename(file, '.bench.yaml');
  const target = out ?? join(folderOf(file), `${name}-draft.tree.mdx`);
  if (!isTreeFile(target)) return failure(`A tree's file ends in .tree.mdx; “${target}” does not.`);
  if (existsSync(target)) return failure(`${target} is there already, and a draft writes over nothing. Name another file with --out.`);
  if (!existsSync(dirname(resolve(target)))) return failure(`There is no folder ${dirname(target)} to write a tree into.`);
  const crew = crewEdition(folderOf(file), name);
  const drafted = draftTree(bench, { name: treeName(target), bench: name, ...(crew && { minutes: treeMinutes(crew, prepare(bench)) }) });
  if (!drafted.ok) {
    const { message, fix } = draftProblemWords(drafted.problem);
    return failure(`${file}: ${message} ${fix}`);
  }
  const { tree, isolation, ambiguous } = drafted.value;
  writeFileSync(target, writeTree(tree, { benches: { [name]: namesOf(bench) }, trees: {}, functions: TRADE_FUNCTIONS }));
  const beside = resolve(dirname(target), 'benches') === resolve(dirname(file));
  return success({
    file: target,
    steps: tree.steps.length,
    minutes: rounded(isolation.minutes),
    bound: rounded(isolation.bound),
    method: isolation.method,
    minutesFrom: crew?.root.name ?? null,
    ambiguous,
    notes: beside
      ? []
      : [`The tree looks for its bench in ${relative('.', join(dirname(target), 'benches')) || 'benches'}; put ${basename(file)} there.`],
  });
}

/** The first tree of a folder that is about a bench and that an edition can be made of; drafts that stand beside it know no minutes of their own. */
function crewEdition(folder: string, bench: string): CompiledEdition | undefined {
  const trees = new TreeFolder(folder);
  for (const file of trees.treeFiles()) {
    const name = treeName(file);
    if (name.endsWith('-draft') || !trees.tree(name)?.tree?.benches.includes(bench)) continue;
    const edition = buildEdition(name, trees.sources(name));
    if (edition.ok) return compileEdition(edition.value, TRADE_FUNCTIONS);
  }
  return undefined;
}

const rounded = (minutes: number): number => Math.round(minutes * 100) / 100;

/** The report for people. */
export const draftText = (report: DraftReport): string =>
  [
    `${report.file}: ${report.steps} steps, expected ${report.minutes.toFixed(1)} min (${report.method === 'exact' ? 'the least there is' : 'the best found'} with these readings; no tree below ${report.bound.toFixed(1)} min)`,
    report.minutesFrom === null ? 'minutes: the usual ones' : `minutes: as ${report.minutesFrom}.tree.mdx counts them`,
    ...report.ambiguous.map((faults) => `not told apart by any reading: ${faults.join(', ')}`),
    ...report.notes,
  ].join('\n');
