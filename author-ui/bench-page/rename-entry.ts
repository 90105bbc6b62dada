import { readBench } from '../../engine/bench/index.ts';
import type { Problem } from '../../engine/problem.ts';
import { failure, type Result, success } from '../../engine/result.ts';
import { slugSchema, type Tree, terminalSchema } from '../../engine/tree/index.ts';
import { benchOfPath, benchPath, type DeskFile, treeOfPath } from '../store/desk-file.ts';
import { benchesNamedIn, type EditableTree, editableTree } from '../store/edit-tree-text.ts';
import { type EditableBench, editableBench } from './bench-edits.ts';
import { mentionsIn, type Rename } from './entry-mentions.ts';
import { renamedInTree } from './tree-mentions.ts';

export type RenameEntryProblem =
  | { readonly code: 'bad-name'; readonly isTerminal: boolean }
  | { readonly code: 'taken'; readonly name: string; readonly bench: string }
  /** With the new name the bench could not be read as before: a clash with a setting, a part or a unit. */
  | { readonly code: 'breaks'; readonly bench: string; readonly problem: Problem }
  | { readonly code: 'no-bench'; readonly bench: string }
  /** The text of the bench has lost it since it was listed. */
  | { readonly code: 'gone'; readonly name: string; readonly bench: string };

/** The files that a rename changes, as one step of work. */
export type RenamePlan = {
  readonly edits: ReadonlyMap<string, string>;
  /** Other benches and trees that follow, by path. */
  readonly follows: readonly string[];
  /** Trees that cannot be read now and so do not follow. */
  readonly unread: readonly string[];
};

type Mentioning = { readonly editable: EditableTree; readonly renamed: Tree };

/**
 * Renames an entry of a bench, with every mention in the bench, in the trees that are checked against it, and in the other benches of those
 * trees, since a tree has one name for what all of its benches have.
 */
export function planRename(files: ReadonlyMap<string, DeskFile>, bench: string, rename: Rename): Result<RenamePlan, RenameEntryProblem> {
  const { section, from, to } = rename;
  const isTerminal = section === 'terminals';
  if (!(isTerminal ? terminalSchema : slugSchema).safeParse(to).success) return failure({ code: 'bad-name', isTerminal });
  const has = (name: string, entry: string): boolean => {
    const read = benchAt(files, name)?.bench;
    return read !== undefined && (isTerminal ? read.terminals.includes(entry) : Object.hasOwn(read[section], entry));
  };
  const read = new Map<string, Mentioning | undefined>();
  const unread: string[] = [];
  const benches = new Set([bench]);
  for (let size = 0; size < benches.size; ) {
    size = benches.size;
    for (const { path, text } of files.values()) {
      if (read.has(path) || treeOfPath(path) === undefined || !text.includes(from)) continue;
      const named = benchesNamedIn(text);
      if (!named.some((name) => benches.has(name))) continue;
      const editable = editableTree(files, path);
      if (!editable) unread.push(path);
      const renamed = editable && renamedInTree(editable.tree, rename);
      const mentions = editable !== undefined && renamed !== undefined && renamed !== editable.tree;
      read.set(path, mentions ? { editable, renamed } : undefined);
      if (mentions) for (const name of editable.tree.benches) if (has(name, from)) benches.add(name);
    }
  }
  const edits = new Map<string, string>();
  for (const name of benches) {
    const editable = benchAt(files, name);
    if (!editable) return failure({ code: 'no-bench', bench: name });
    if (!has(name, from)) return failure({ code: 'gone', name: from, bench: name });
    if (has(name, to)) return failure({ code: 'taken', name: to, bench: name });
    const text = editable.withRenamed(mentionsIn(editable.bench, rename), isTerminal ? undefined : [section, from], to);
    const broken = newError(editable.text, text);
    if (broken) return failure({ code: 'breaks', bench: name, problem: broken });
    edits.set(benchPath(name), text);
  }
  for (const mentioning of read.values()) if (mentioning) edits.set(mentioning.editable.path, mentioning.editable.with(mentioning.renamed));
  return success({ edits, follows: [...edits.keys()].filter((path) => path !== benchPath(bench)), unread });
}

function benchAt(files: ReadonlyMap<string, DeskFile>, name: string): EditableBench | undefined {
  const text = files.get(benchPath(name))?.text;
  return text === undefined ? undefined : editableBench(text);
}

/** An error that a text has and the one before had not. */
function newError(before: string, after: string): Problem | undefined {
  const errorsOf = (text: string): readonly Problem[] => readBench(text, { file: '' }).problems.filter(({ severity }) => severity === 'error');
  const had = errorsOf(before);
  const count = (problems: readonly Problem[], wanted: string): number => problems.filter(({ code }) => code === wanted).length;
  const has = errorsOf(after);
  return has.find(({ code }) => count(has, code) > count(had, code));
}

export function renameEntryWords(problem: RenameEntryProblem): string {
  switch (problem.code) {
    case 'bad-name':
      return problem.isTerminal
        ? 'A terminal is written as on the equipment: letters, digits and / + _ . - without a space, such as K1 or W/W1.'
        : 'The name is written in small letters, numbers and single hyphens, such as valve-coil.';
    case 'taken':
      return `There is a “${problem.name}” on the bench ${problem.bench} already. Give this one another name.`;
    case 'breaks':
      return `With that name the bench ${problem.bench} would be wrong: ${problem.problem.message} Give it another name.`;
    case 'no-bench':
      return `The text of the bench ${problem.bench} cannot be read as a bench now. Put it right first.`;
    case 'gone':
      return `The bench ${problem.bench} has no “${problem.name}” any more: its text was changed meanwhile. Close this form and look at the list again.`;
  }
}

/** What a path is called where files that follow are listed. */
export const followerName = (path: string): string => benchOfPath(path) ?? path.replace(/\.tree\.mdx$/, '');
