import type { Problem } from '../../engine/problem.ts';
import type { Sources } from '../data/fetch-sources.ts';
import type { ExpectedValues } from './expected-values.ts';
import type { TryMove, TryOffer, TrySetup, TryState } from './try-state.ts';

/** `files`: read the tree anew from these; `walk`: how it stands after these moves. */
export type TryRequest =
  | { readonly ask: 'files'; readonly request: number; readonly name: string; readonly sources: Sources }
  | { readonly ask: 'walk'; readonly request: number; readonly setup: TrySetup; readonly moves: readonly TryMove[] };

export type TryAnswer =
  | { readonly stage: 'ready'; readonly request: number; readonly offer: TryOffer }
  /** Files with errors cannot be walked. */
  | { readonly stage: 'not-ready'; readonly request: number; readonly problems: readonly Problem[]; readonly why?: string }
  | { readonly stage: 'walked'; readonly request: number; readonly state: TryState };

export type ExpectedRequest = { readonly request: number; readonly name: string; readonly sources: Sources };

export type ExpectedAnswer =
  | { readonly stage: 'read'; readonly request: number; readonly values: ExpectedValues }
  | { readonly stage: 'not-read'; readonly request: number };
