import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { TRADE_FUNCTIONS } from '../../../engine/trade/index.ts';
import { readTree, type Surroundings, type Tree, type TreePlaces } from '../../../engine/tree/index.ts';

export const NO_BENCHES: Surroundings = { benches: {}, trees: {}, functions: TRADE_FUNCTIONS };

/** A tree of the repository, with its text. Its benches are not read. */
export function shippedTree(name: string): { readonly text: string; readonly tree: Tree; readonly places: TreePlaces } {
  const text = readFileSync(fileURLToPath(new URL(`../../../trees/${name}.tree.mdx`, import.meta.url)), 'utf8');
  return { text, ...readOrThrow(text, name) };
}

/** Reads a text that a test knows to be a tree. */
export function readOrThrow(text: string, name: string): { readonly tree: Tree; readonly places: TreePlaces } {
  const { tree, places, problems } = readTree(text, { file: `trees/${name}.tree.mdx`, surroundings: NO_BENCHES });
  if (!tree) throw new Error(problems.map(({ line, message }) => `${line}: ${message}`).join('\n'));
  return { tree, places };
}
