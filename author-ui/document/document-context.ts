import { createContext, useContext } from 'react';
import type { FactSpec, Tree } from '../../engine/tree/index.ts';
import type { ShelfTree } from '../data/read-shelf.ts';

/** The document that a part of the page stands in. */
export type TreeInDocument = {
  readonly tree: Tree;
  readonly facts: Readonly<Record<string, FactSpec>>;
  /** Each step's number in the document. */
  readonly numbers: ReadonlyMap<string, number>;
  /** All trees, so that a way into another can name it. */
  readonly shelf: readonly ShelfTree[];
  /** Addresses of the pictures by their path in the prose. */
  readonly figures: Readonly<Record<string, string>>;
};

export const DocumentContext = createContext<TreeInDocument | undefined>(undefined);

export function useDocument(): TreeInDocument {
  const document = useContext(DocumentContext);
  if (!document) throw new Error('This part of the page stands only in a document.');
  return document;
}
