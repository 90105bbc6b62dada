import { failure, type Result, success } from '../../engine/result.ts';
import { isChoice, type Step, stepId, type Tree } from '../../engine/tree/index.ts';
import { benchOfPath, benchPath, type DeskFile, treeOfPath, treePath } from '../store/desk-file.ts';
import { benchesNamedIn, editableTree } from '../store/edit-tree-text.ts';

export type RenameFileProblem =
  /** Nothing that a name could be made of. */
  | { readonly code: 'no-name' }
  | { readonly code: 'too-long' }
  | { readonly code: 'taken'; readonly path: string }
  | { readonly code: 'same' }
  /** A tree that names the bench cannot be read, so its mention could not follow. */
  | { readonly code: 'unread'; readonly path: string };

/** The edits of a rename as one step of work, and where the file is then. */
export type FileRename = { readonly edits: ReadonlyMap<string, string | undefined>; readonly to: string; readonly follows: readonly string[] };

const MOST_LETTERS = 60;

/** Gives a tree's or a bench's file another name; what leads to it from other files follows. */
export function renameFile(files: ReadonlyMap<string, DeskFile>, path: string, typed: string): Result<FileRename, RenameFileProblem> {
  const tree = treeOfPath(path);
  const bench = benchOfPath(path);
  const file = files.get(path);
  const name = stepId(typed.trim().replace(/(\.tree\.mdx|\.bench\.yaml)$/, ''));
  if (!file || name === '') return failure({ code: 'no-name' });
  if (name.length > MOST_LETTERS) return failure({ code: 'too-long' });
  const to = tree === undefined ? benchPath(name) : treePath(name);
  if (to === path) return failure({ code: 'same' });
  if (files.has(to)) return failure({ code: 'taken', path: to });
  const edits = new Map<string, string | undefined>([
    [path, undefined],
    [to, file.text],
  ]);
  if (tree !== undefined) {
    for (const [other, text] of followingTree(files, tree, name)) edits.set(other === path ? to : other, text);
  } else if (bench !== undefined) {
    for (const other of files.values()) {
      if (treeOfPath(other.path) === undefined || !benchesNamedIn(other.text).includes(bench)) continue;
      const editable = editableTree(files, other.path);
      if (!editable) return failure({ code: 'unread', path: other.path });
      edits.set(other.path, editable.with(withBenchRenamed(editable.tree, bench, name)));
    }
  }
  return success({ edits, to, follows: [...edits.keys()].filter((one) => one !== path && one !== to) });
}

/** Links such as `no-heat.tree.mdx#limit-switch`, in the tree's own file too. */
function followingTree(files: ReadonlyMap<string, DeskFile>, from: string, to: string): readonly (readonly [string, string])[] {
  const link = new RegExp(`(?<![A-Za-z0-9._-])${from}\\.tree\\.mdx`, 'g');
  return [...files.values()].flatMap(({ path, text }) => {
    const after = treeOfPath(path) === undefined ? text : text.replaceAll(link, treePath(to));
    return after === text ? [] : [[path, after] as const];
  });
}

/** A bench is named in the list of benches, and in the choice that tells how a site is wired, with the ways of the step that asks it. */
function withBenchRenamed(tree: Tree, from: string, to: string): Tree {
  const one = (name: string): string => (name === from ? to : name);
  const wirings = new Set(
    Object.entries(tree.facts).flatMap(([fact, spec]) => (isChoice(spec) && spec.choices.every((name) => tree.benches.includes(name)) ? [fact] : [])),
  );
  const facts = Object.fromEntries(
    Object.entries(tree.facts).map(([fact, spec]) => [
      fact,
      isChoice(spec) && wirings.has(fact) ? { ...spec, choices: spec.choices.map(one), usual: one(spec.usual) } : spec,
    ]),
  );
  const asks = (step: Step): boolean => step.kind === 'ask' && wirings.has(step.fact);
  const steps = tree.steps.map(
    (step): Step =>
      step.kind === 'ask' && asks(step) && step.ways.some(({ on }) => on === from)
        ? { ...step, ways: step.ways.map((way) => ({ ...way, on: one(way.on) })) }
        : step,
  );
  const recheck =
    tree.recheck && tree.steps.some((step) => step.id === tree.recheck?.step && asks(step))
      ? { ...tree.recheck, passes: one(tree.recheck.passes) }
      : tree.recheck;
  return { ...tree, benches: tree.benches.map(one), facts, steps, ...(recheck && { recheck }) };
}

export function renameFileWords(problem: RenameFileProblem): string {
  switch (problem.code) {
    case 'no-name':
      return 'A name has letters or digits in it, such as no-heat.';
    case 'too-long':
      return `A name has at most ${MOST_LETTERS} letters. Make it shorter.`;
    case 'taken':
      return `There is a file ${problem.path} already. Choose another name.`;
    case 'same':
      return 'It has this name already.';
    case 'unread':
      return `${problem.path} names this bench and has errors of form, so it could not follow. Put it right first; nothing was changed.`;
  }
}
