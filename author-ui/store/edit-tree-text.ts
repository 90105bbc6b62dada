import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { readTree, type Surroundings, type Tree } from '../../engine/tree/index.ts';
import { outlineOf } from '../data/read-shelf.ts';
import { treeSession, withTree } from '../edit/tree-session.ts';
import { type DeskFile, treeOfPath, treePath } from './desk-file.ts';

/** A tree of the desk, read as far as an edit of it from outside needs. */
export type EditableTree = {
  readonly path: string;
  readonly tree: Tree;
  /** The tree's text after an edit: only the lines that it is about are written anew. */
  readonly with: (tree: Tree) => string;
};

const BENCHES = /^benches:\s*(.*(?:\n[ \t]+-.*)*)/m;

/** Names that stand in a tree's list of benches, its text read no further. */
export const benchesNamedIn = (text: string): readonly string[] => (BENCHES.exec(text)?.[1] ?? '').split(/[^a-z0-9-]+/).filter((name) => name !== '');

/** The tree of a file, to be changed from outside its own page; undefined where its text has errors of form. */
export function editableTree(files: ReadonlyMap<string, DeskFile>, path: string): EditableTree | undefined {
  const text = files.get(path)?.text;
  if (text === undefined) return undefined;
  const { tree, places } = readTree(text, { file: path, surroundings: { benches: {}, trees: {}, functions: TRADE_FUNCTIONS } });
  if (!tree) return undefined;
  return {
    path,
    tree,
    with: (next) => (next === tree ? text : withTree(treeSession(text, tree, places), next, surroundingsOf(files, path, text)).text),
  };
}

/** The titles of what the tree leads to elsewhere, which its links are written with. */
function surroundingsOf(files: ReadonlyMap<string, DeskFile>, path: string, text: string): Surroundings {
  const linked = new Set([...text.matchAll(/([a-z0-9-]+)\.tree\.mdx/g)].flatMap((match) => match[1] ?? []));
  const trees: Record<string, Surroundings['trees'][string]> = {};
  for (const name of linked) {
    const other = name === treeOfPath(path) ? undefined : files.get(treePath(name))?.text;
    const outline = other === undefined ? undefined : outlineOf(name, other);
    if (outline) trees[name] = outline;
  }
  return { benches: {}, trees, functions: TRADE_FUNCTIONS };
}
