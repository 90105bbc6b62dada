import type { Action } from '../../engine/tree/index.ts';
import type { PutBackItem } from '../../engine/walk/index.ts';

/** One thing that could be wrong, as a screen shows it. */
export type ShownSuspect = {
  readonly fault: string;
  /** In plain words, where the bench has them. */
  readonly says: string | undefined;
  readonly probability: number;
  /** The wirings that have it, where the site could be one of several and not all of them do. */
  readonly wirings: readonly string[];
};

/** What a walk leaves possible. Plain values only: it comes from a worker. */
export type SuspectsReport = {
  /** No bench: nothing can be said. */
  readonly benches: number;
  /** Most likely first. */
  readonly possible: readonly ShownSuspect[];
  /** What the readings leave next to nothing of, most likely first. */
  readonly ruledOut: readonly ShownSuspect[];
  readonly nothingWrong: number;
  readonly unknown: number;
  /** Repaired, and the complaint stayed. */
  readonly excluded: readonly string[];
  readonly contradictions: readonly { readonly message: string; readonly fix: string }[];
  /** Most likely first; one where the wiring is known. */
  readonly wirings: readonly { readonly bench: string; readonly probability: number }[];
  /** How many things were found out so far. */
  readonly found: number;
};

export type SetUpMove = Action | { readonly do: 'prove-dead'; readonly across: readonly [string, string] };

/** How the walk gets to a step: it stands on it, is on the way to it, comes to it next by the tree's order, or jumps. */
export type Way = 'here' | 'under-way' | 'next' | 'jump';

/** A step of the edition to go to, and how. */
export type Destination = {
  readonly tree: string;
  readonly step: string;
  readonly title: string;
  readonly way: Way;
  /** What has to be put back before the jump. */
  readonly putBack: readonly PutBackItem[];
};

/** Something to find out next. */
export type Suggestion = {
  /** `tree/step` of the step that takes it, with how the circuit stands. */
  readonly key: string;
  readonly title: string;
  readonly kind: 'reading' | 'look';
  /** Meter function or sign, in words. */
  readonly task: string;
  /** Red lead, black lead. */
  readonly across: readonly [string, string] | undefined;
  /** How the circuit should stand for it; absent where it does not matter. */
  readonly stance: Stance | undefined;
  readonly setUp: readonly SetUpMove[];
  /** Of set-up and reading together. */
  readonly minutes: number;
  /** Expected minutes from now to the finding. */
  readonly expected: number;
  readonly reason: string;
  /** What it could show, likeliest first, and the faults that each would leave. */
  readonly shows: readonly { readonly reading: string; readonly leaves: readonly string[]; readonly probability: number }[];
  readonly to: Destination | undefined;
};

export type Stance = {
  readonly settings: Readonly<Record<string, string>>;
  readonly jumpers: readonly (readonly [string, string])[];
  readonly lifted: readonly string[];
};

/** What to find out next, best first; or the finding that is left. */
export type AdviceReport = {
  readonly suggestions: readonly Suggestion[];
  readonly method: 'exact' | 'rollout';
  readonly finding: { readonly to: Destination; readonly faults: readonly string[]; readonly probability: number } | undefined;
  /** Faults that no step of the edition tells apart any more. */
  readonly left: readonly string[];
};
