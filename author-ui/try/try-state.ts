import type { Bench, Situation } from '../../engine/bench/index.ts';
import type { QuantityKindName } from '../../engine/quantity/index.ts';
import type { FactSpec, SettingHold, Step } from '../../engine/tree/index.ts';
import type { FactState, PathEntry, PutBackItem, Scale, Verdict, WalkEvent, WalkOutcome, WalkPhase } from '../../engine/walk/index.ts';

/** What an author chose before a tree is tried: the circuit, what is broken in it, the house, and where to begin. */
export type TrySetup = {
  /** A bench of the tree; undefined where it has none: then everything is typed. */
  readonly bench: string | undefined;
  /** The one fault in it; undefined for a sound circuit. */
  readonly fault: string | undefined;
  /** Facts that are not as usual, as typed. */
  readonly facts: Readonly<Record<string, string>>;
  /** Key of the step to begin at; undefined for the tree's beginning. */
  readonly from: string | undefined;
  /** How the circuit stands where no walk on this bench comes to that step. */
  readonly begin: TryBegin;
};

export type TryBegin = {
  /** Settings that are not as found. */
  readonly settings: Readonly<Record<string, string>>;
  readonly jumpers: readonly (readonly [string, string])[];
  readonly lifted: readonly string[];
  /** The points of the step count as proved dead, the meter tried before and after. */
  readonly dead: boolean;
};

export const AS_FOUND: TryBegin = { settings: {}, jumpers: [], lifted: [], dead: false };

/** What an author does while a tree is tried: an event of a walk, or whatever comes next with what the bench shows, once or to the end. */
export type TryMove = { readonly do: 'event'; readonly event: WalkEvent } | { readonly do: 'as-shown' } | { readonly do: 'follow' };

/** What the bench shows on the open step. */
export type BenchShows =
  /** `others`: further ways that the meter's accuracy reaches. */
  | { readonly kind: 'reading'; readonly shown: string; readonly others: readonly string[] }
  /** The label, choice or typed fact that answers. */
  | { readonly kind: 'answer'; readonly on: string }
  | { readonly kind: 'nothing-to-show' }
  | { readonly kind: 'untold'; readonly why: Untold };

/** Why a bench cannot say what a tech would find; the author then does. */
export type Untold = 'no-bench' | 'no-sign' | 'several' | 'not-read-here' | 'circuit-live' | 'not-solved' | 'no-band';

/** How the try began: at the beginning, on the shortest way that the bench leads to the step, or there with settings as chosen. */
export type TryStart = { readonly how: 'beginning' } | { readonly how: 'followed'; readonly steps: number } | { readonly how: 'set' };

/** One step of the path, with what its reading is of. */
export type TriedStep = PathEntry & { readonly takes?: QuantityKindName; readonly unit?: string };

/** How it ended. `round`: it came to a step once more with nothing changed, so it would go on for ever. */
export type TryEnd =
  | { readonly how: 'right' | 'wrong'; readonly names: readonly string[] }
  | { readonly how: 'handed-off'; readonly to: string }
  | { readonly how: 'round' };

export type RefusedMove = { readonly message: string; readonly fix: string };

/** A tried tree as it stands, as plain data. */
export type TryState = {
  readonly start: TryStart;
  /** The moves that could be taken, each `follow` as what it came to. */
  readonly taken: readonly TryMove[];
  /** Why the move after those could not be taken, and how many stand behind it. */
  readonly refused?: RefusedMove;
  readonly dropped: number;
  readonly phase: WalkPhase;
  readonly at: { readonly tree: string; readonly treeTitle: string; readonly step: string };
  readonly step: Step;
  readonly unmet: readonly SettingHold[];
  readonly shows: BenchShows;
  readonly scale?: Scale;
  readonly verdict?: Verdict;
  readonly answers: readonly { readonly on: string; readonly leadsTo: string }[];
  /** Title of the step that `cannot` leads to. */
  readonly cannot?: string;
  readonly path: readonly TriedStep[];
  readonly minutes: number;
  readonly putBack: readonly PutBackItem[];
  readonly facts: readonly FactState[];
  /** What is wrong with a fact as it was typed. */
  readonly factProblems: Readonly<Record<string, string>>;
  /** The circuit as it stands, with its fault. */
  readonly situation?: Situation;
  readonly unsolved?: string;
  readonly end?: TryEnd;
  readonly outcome?: WalkOutcome;
};

/** What an author can choose from, of the tree as it is written now. */
export type TryOffer = {
  readonly root: string;
  readonly title: string;
  readonly benches: Readonly<Record<string, Bench>>;
  readonly facts: Readonly<Record<string, FactSpec>>;
  /** The fact that says which bench the site is. */
  readonly wiring?: string;
  readonly settings: Readonly<Record<string, readonly string[]>>;
  readonly jumpers: readonly (readonly [string, string])[];
  readonly leads: readonly string[];
  /** Steps by key, for naming them. */
  readonly titles: Readonly<Record<string, string>>;
};
