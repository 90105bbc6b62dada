import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { namesOf, readBench } from '../../engine/bench/index.ts';
import type { Problem } from '../../engine/problem.ts';
import { proofProblems, proveTree, type TreeProof } from '../../engine/proof/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { readTree } from '../../engine/tree/index.ts';
import { buildEdition, compileEdition } from '../../engine/walk/index.ts';

const here = (name: string): string => readFileSync(fileURLToPath(new URL(name, import.meta.url)), 'utf8');

/** A tree with nothing wrong with it, and the small bench that it is proved on. */
export const SOUND = here('./sound.tree.mdx');
export const BENCH = here('./proof-bench.bench.yaml');

/** A change to a text that must find what it changes. */
export function changed(text: string, from: string, to: string): string {
  if (!text.includes(from)) throw new Error(`not in the text: ${from}`);
  return text.replace(from, to);
}

/** Reads a tree and proves it: all that is reported of it. A tree with errors in its own text is not proved, and throws. */
export function prove(treeText: string, benchText = BENCH): { readonly proof: TreeProof; readonly problems: readonly Problem[] } {
  const { bench, problems: benchProblems } = readBench(benchText, { file: 'proof-bench.bench.yaml' });
  if (!bench || benchProblems.some((p) => p.severity === 'error')) throw new Error(JSON.stringify(benchProblems));
  const surroundings = { benches: { 'proof-bench': namesOf(bench) }, trees: {}, functions: TRADE_FUNCTIONS };
  const { tree, problems, places } = readTree(treeText, { file: 'seeded.tree.mdx', surroundings });
  if (!tree || problems.some((p) => p.severity === 'error')) throw new Error(JSON.stringify(problems, null, 1));
  const edition = buildEdition('seeded', { trees: { seeded: tree }, benches: { 'proof-bench': bench }, figures: {} });
  if (!edition.ok) throw new Error(JSON.stringify(edition.problem));
  const compiled = compileEdition(edition.value, TRADE_FUNCTIONS);
  const proof = proveTree(compiled);
  return { proof, problems: [...problems, ...proofProblems(compiled, proof, { seeded: places })] };
}

/** The codes of some problems, each once, in order. */
export function onlyCodes(problems: readonly Problem[]): readonly string[] {
  return [...new Set(problems.map((p) => p.code))].sort();
}

/** The text of a step with its task and ways on. */
export const step = (title: string, task: string, ways: string): string => `## ${title}\n\n${task}\n\n<Next>\n\n${ways}\n\n</Next>\n\n`;

/** A tree with text put in before the step of a title. */
export const putBefore = (text: string, title: string, inserted: string): string => changed(text, `## ${title}\n`, `${inserted}## ${title}\n`);
