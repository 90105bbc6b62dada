import { createContext, useContext } from 'react';
import type { FactSpec, Step, Tree } from '../../../engine/tree/index.ts';
import type { SurroundingNames } from '../../data/tree-checker.ts';
import type { TreeEdit } from './use-tree-editor.ts';

/** What every form of the editing page works on. */
export type Editing = {
  readonly tree: Tree;
  readonly facts: Readonly<Record<string, FactSpec>>;
  readonly names: SurroundingNames;
  readonly figures: Readonly<Record<string, string>>;
  readonly numbers: ReadonlyMap<string, number>;
  edit(label: string, change: TreeEdit): void;
  /** Changes the step of this id. */
  editStep(label: string, id: string, change: (step: Step) => Step): void;
  /** The step that is shown; `opening` for the tree's own page. */
  select(id: string): void;
  /** Gives a step another title or id, and says why not where that cannot be. Trees that lead to it follow. */
  rename(id: string, to: { readonly title: string } | { readonly id: string }): string | undefined;
};

export const EditingContext = createContext<Editing | undefined>(undefined);

export function useEditing(): Editing {
  const editing = useContext(EditingContext);
  if (!editing) throw new Error('This form stands only on the editing page.');
  return editing;
}
