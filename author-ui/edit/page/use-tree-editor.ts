import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { TRADE_FUNCTIONS } from '../../../engine/trade/index.ts';
import { type FactSpec, readTree, type Surroundings, type Tree } from '../../../engine/tree/index.ts';
import type { SurroundingNames } from '../../data/tree-checker.ts';
import { treePath } from '../../store/desk-file.ts';
import { type CheckedTreeNow, useCheckedTree } from '../../store/use-checked-tree.ts';
import { useDeskFile, useDeskStore } from '../../store/use-desk-store.ts';
import { type TreeSession, treeSession, withTree } from '../tree-session.ts';

/** Changes the tree; the same tree back means that nothing is to be done. */
export type TreeEdit = (tree: Tree) => Tree;

export type TreeEditor = {
  readonly name: string;
  readonly text: string;
  /** The tree to show: of the text as it stands, or of the last text that could be read. Absent until one was. */
  readonly tree?: Tree;
  /** Why the tree cannot be edited by forms now; absent where it can. */
  readonly locked?: string;
  readonly facts: Readonly<Record<string, FactSpec>>;
  readonly names: SurroundingNames;
  readonly check: CheckedTreeNow;
  /** Edits the tree as one step of work, and writes only the lines that the edit is about. `along` has the texts of other files that follow in the same step. */
  edit(label: string, change: TreeEdit, along?: () => readonly (readonly [path: string, text: string])[]): void;
  /** Writes the text as it is given. */
  writeText(text: string, label: string): void;
};

const NO_NAMES: SurroundingNames = { benches: {}, trees: {}, figures: [] };

/** A tree of the desk as it is edited: its text, what was read from it, and both ways to change it. Undefined where there is no such file. */
export function useTreeEditor(name: string): TreeEditor | undefined {
  const store = useDeskStore();
  const path = treePath(name);
  const text = useDeskFile(path)?.text;
  const check = useCheckedTree(name);
  const { checked } = check;
  const [written, setWritten] = useState<TreeSession>();
  const names = checked?.names ?? NO_NAMES;
  const surroundings: Surroundings = useMemo(() => ({ ...names, functions: TRADE_FUNCTIONS }), [names]);

  const read = useMemo(() => (checked?.tree ? treeSession(checked.text, checked.tree, checked.places) : undefined), [checked]);
  const session = read?.text === text ? read : written?.text === text ? written : undefined;
  const last = useRef<Tree>(undefined);
  const latest = useRef(session);
  useEffect(() => {
    latest.current = session;
    if (session) last.current = session.tree;
  }, [session]);

  const isBroken = checked !== undefined && checked.text === text && !checked.tree;

  const edit = useCallback(
    (label: string, change: TreeEdit, along: () => readonly (readonly [string, string])[] = () => []): void => {
      const now = store.files().get(path)?.text;
      if (now === undefined) return;
      const from = latest.current?.text === now ? latest.current : readNow(now, path, surroundings);
      if (!from) return;
      const tree = change(from.tree);
      if (tree === from.tree) return;
      const to = withTree(from, tree, surroundings);
      latest.current = to;
      setWritten(to);
      store.apply(new Map([[path, to.text], ...along()]), label);
    },
    [store, path, surroundings],
  );
  const writeText = useCallback((next: string, label: string) => store.write(path, next, label), [store, path]);

  if (text === undefined) return undefined;
  const tree = session?.tree ?? (isBroken ? undefined : last.current);
  return {
    name,
    text,
    names,
    check,
    facts: checked?.facts ?? {},
    edit,
    writeText,
    ...(tree && { tree }),
    ...(isBroken && { locked: 'The text has errors of form, so the forms wait. Put them right in the text, or undo.' }),
  };
}

/** Between two answers of the worker, so that nothing typed into a form is dropped. */
function readNow(text: string, path: string, surroundings: Surroundings): TreeSession | undefined {
  const { tree, places } = readTree(text, { file: path, surroundings });
  return tree && treeSession(text, tree, places);
}
