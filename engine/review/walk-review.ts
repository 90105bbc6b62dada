import type { LogProblem, WalkOutcome } from '../walk/index.ts';

/** One stay at a step: from the line that led there to the line that left it. */
export type StepStay = {
  /** Which stay of the walk it is, from 0. */
  readonly place: number;
  readonly tree: string;
  readonly step: string;
  readonly title: string;
  readonly kind: string;
  /** `seq` of its first and its last line. */
  readonly from: number;
  readonly to: number;
  /** Pauses are taken out. */
  readonly minutes: number;
  /** The way taken; absent where the walk left without one (stepped back, jumped away) or stands there. */
  readonly on?: string;
  readonly tooClose: boolean;
  readonly acceptedTooClose: boolean;
  readonly couldNot: boolean;
  /** The walk came here by a jump. */
  readonly jumped: boolean;
  /** The walk left by stepping back. */
  readonly steppedBack: boolean;
};

/** What was learnt of a finding afterwards. `held`: it was that. Else what it turned out to be, where it is known. */
export type Confirmation = {
  readonly held: boolean;
  /** The fault that it really was, by the bench's name for it; left out where only 'it came back' is known. */
  readonly fault?: string;
  readonly bench?: string;
};

export const MEASURE_CODES = [
  /** Minutes from opening to closing, pauses taken out. */
  'minutes',
  /** Minutes that the steps took by the tree's own count, less those of the best order for the fault it was. */
  'regret',
  /** Readings and looks that could not change the suspects. */
  'redundant',
  /** The finding was accepted while more than one suspect was left. */
  'premature',
  /** The longest run of readings that could only confirm the favourite while another told twice as much a minute. */
  'streak',
  /** Steps left by a jump that was not to a suggested reading, or could-nots taken to get past a step that could be done. */
  'skipped',
  /** Cautions acknowledged faster than their words can be read. */
  'fast-caution',
  /** Readings too close to call that were gone on from. */
  'accepted-too-close',
  'could-not',
  /** Closed as repaired without the complaint tried again. */
  'not-rechecked',
  /** Things put back only in the closing list though the steps after no longer needed them. */
  'put-back-late',
] as const;
export type MeasureCode = (typeof MEASURE_CODES)[number];

/** The lines of the log that made a measure what it is. */
export type MeasureEvidence = {
  readonly seq: number;
  readonly tree?: string;
  readonly step?: string;
  /** Numbers and names that the words of this measure are filled with. */
  readonly values?: Readonly<Record<string, string | number>>;
};

/** A measure of one walk, or why it has none. Minutes for `minutes` and `regret`, else a count (`premature`, `not-rechecked`: 0 or 1). */
export type Measure =
  | { readonly code: MeasureCode; readonly value: number; readonly evidence: readonly MeasureEvidence[] }
  | { readonly code: MeasureCode; readonly missing: 'no-bench' | 'not-closed' | 'no-finding' | 'fault-not-known' | 'not-applicable' };

/** One walk as a trainer sees it. */
export type WalkReview = {
  readonly walk: string;
  readonly edition: string;
  readonly tree: string;
  readonly title: string;
  readonly by?: string;
  readonly site?: string;
  readonly drill: boolean;
  /** ISO 8601. */
  readonly opened?: string;
  readonly closed?: string;
  readonly outcome?: WalkOutcome;
  /** The last finding that was reached. */
  readonly finding?: { readonly tree: string; readonly step: string; readonly title: string; readonly faults: readonly string[] };
  readonly confirmation?: Confirmation;
  readonly stays: readonly StepStay[];
  readonly measures: readonly Measure[];
  /** What is wrong with the log; what comes before it is reviewed. */
  readonly problems: readonly LogProblem[];
};
