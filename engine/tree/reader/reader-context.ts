import type { Place } from '../../problem.ts';
import type { Surroundings } from '../surroundings.ts';
import type { Report } from '../tree-problem.ts';
import type { SourceText } from './source-text.ts';

/** What every part of the reader needs. */
export type ReaderContext = {
  readonly source: SourceText;
  readonly surroundings: Surroundings;
  /** The name of the tree that is being read. */
  readonly tree: string;
  readonly report: Report;
};

type Positioned = {
  readonly position?:
    | { readonly start: { readonly offset?: number | undefined }; readonly end: { readonly offset?: number | undefined } }
    | undefined;
};

export const nodeStart = (node: Positioned): number => node.position?.start.offset ?? 0;
export const nodeEnd = (node: Positioned): number => node.position?.end.offset ?? nodeStart(node);
export const nodePlace = (node: Positioned, context: ReaderContext): Place => context.source.placeAt(nodeStart(node), nodeEnd(node));
/** The text that a node was read from. */
export const sourceOf = (node: Positioned, context: ReaderContext): string => context.source.text.slice(nodeStart(node), nodeEnd(node));
