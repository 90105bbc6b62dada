import type { Problem } from '../../engine/problem.ts';
import type { Sources } from './fetch-sources.ts';
import type { CheckedTree } from './tree-checker.ts';

export type CheckRequest = { readonly request: number; readonly name: string; readonly sources: Sources };

/** First what reading shows, at once; then what following every path adds. */
export type CheckAnswer =
  | { readonly request: number; readonly stage: 'read'; readonly checked: CheckedTree }
  | { readonly request: number; readonly stage: 'paths'; readonly problems: readonly Problem[] };
