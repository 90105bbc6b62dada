import type { BandNote } from './reader/read-ways.ts';
import type { Surroundings } from './surroundings.ts';
import type { Tree } from './tree.ts';
import type { TreePlaces } from './tree-places.ts';

/** A file as far as it could be read: what the rules look at. */
export type TreeDraft = {
  readonly tree: Tree;
  readonly places: TreePlaces;
  readonly surroundings: Surroundings;
  /** As `tree.steps`. */
  readonly notes: readonly StepNote[];
  /** `recheck` as written, where it is. */
  readonly recheck: string | undefined;
  /** Facts and settings that are named but could not be read: nothing is said about their use. */
  readonly doubtfulNames: ReadonlySet<string>;
  /** False where nothing is known of facts, settings and benches. */
  readonly frontMatterReadable: boolean;
  /** Some caution of the opening could not be read. */
  readonly doubtfulOpening: boolean;
};

export type StepNote = {
  /** As `ways` of the step; undefined where the way is no band. */
  readonly bands: readonly (BandNote | undefined)[];
  /** What the step takes could not be read in full. */
  readonly doubtfulTask: boolean;
  /** Where the step leads could not be read in full. */
  readonly doubtfulWays: boolean;
  /** Some caution of the step could not be read. */
  readonly doubtfulCautions: boolean;
};
