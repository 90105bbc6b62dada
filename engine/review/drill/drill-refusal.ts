import type { Refusal, SafetyConcern } from '../../walk/index.ts';

/** Why a move was not made. `unsafe` ones are kept in the record; the rest mean nothing. */
export type DrillRefusal =
  | { readonly code: 'unsafe'; readonly concern: SafetyConcern }
  | { readonly code: 'walk'; readonly refusal: Refusal }
  | { readonly code: 'ended' }
  | { readonly code: 'not-a-move'; readonly detail: string }
  | {
      readonly code: 'unknown';
      readonly what: 'setting' | 'state' | 'point' | 'lead' | 'sign' | 'fault' | 'jumper';
      readonly name: string;
      readonly known: readonly string[];
    }
  | { readonly code: 'same-point'; readonly point: string }
  | { readonly code: 'already' }
  | { readonly code: 'not-read-here'; readonly place: string; readonly reads: readonly string[] }
  | { readonly code: 'tree-order' }
  | { readonly code: 'free-order' }
  | { readonly code: 'not-on-the-display'; readonly typed: string }
  | { readonly code: 'too-long'; readonly most: number };
