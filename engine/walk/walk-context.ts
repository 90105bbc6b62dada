import { type CircuitState, untouched } from './circuit-state.ts';
import type { CompiledEdition } from './compiled-edition.ts';
import type { KnownFacts } from './site-facts.ts';
import type { Judged } from './walk-event.ts';
import type { PathEntry, WalkOutcome } from './walk-view.ts';

/** A verdict that is shown and waits for the tech to go on. */
export type PendingVerdict = { readonly on: string; readonly typed?: string; readonly judged?: Judged };

/** What a walk's machine remembers beside its state. Plain data, replaced and never changed. */
export type WalkContext = {
  readonly facts: KnownFacts;
  readonly circuit: CircuitState;
  /** Closed entries of the path; the open step is `at`. */
  readonly path: readonly PathEntry[];
  /** Key of the step the walk stands on; undefined before the first. */
  readonly at?: string;
  readonly jumped: boolean;
  /** Cautions of the open step (or of the opening) that have been read. */
  readonly cautionsRead: readonly number[];
  readonly verdict?: PendingVerdict;
  readonly excluded: readonly string[];
  readonly repaired?: { readonly done: boolean; readonly note?: string };
  readonly rechecks: readonly { readonly on: string; readonly passed: boolean; readonly typed?: string; readonly judged?: Judged }[];
  readonly notes: readonly string[];
  readonly photos: readonly { readonly photo: string; readonly ask?: string }[];
  readonly paused: boolean;
  readonly outcome?: WalkOutcome;
  readonly opened: { readonly by?: string; readonly site?: string; readonly drill?: boolean };
};

export function freshContext(edition: CompiledEdition): WalkContext {
  return {
    facts: {},
    circuit: untouched(edition.asFound),
    path: [],
    jumped: false,
    cautionsRead: [],
    excluded: [],
    rechecks: [],
    notes: [],
    photos: [],
    paused: false,
    opened: {},
  };
}
