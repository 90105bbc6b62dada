import type { Confirmation, CrewMeasures, WalkReview } from '../../../engine/review/index.ts';
import type { Edition } from '../../../engine/walk/index.ts';

/** One walk to review. The edition comes with the first walk of it; the worker keeps it. */
export type WalkRequest = {
  readonly id: number;
  readonly hash: string;
  readonly edition?: Edition;
  readonly lines: readonly unknown[];
  readonly confirmation?: Confirmation;
};

/** Reviews to be looked at together, each with the name of whose walk it was. */
export type CrewRequest = { readonly id: number; readonly crew: readonly { readonly review: WalkReview; readonly name: string }[] };

export type ReviewRequest = WalkRequest | CrewRequest;

export type ReviewAnswer = { readonly id: number } & (
  | { readonly review: WalkReview }
  | { readonly measures: CrewMeasures }
  | { readonly failed: string }
);
