import type { Place } from '../problem.ts';

/** Where a way on stands: the whole line, what it is taken on, and its link. */
export type WayPlaces = { readonly whole: Place; readonly on: Place; readonly to: Place };

/** Where a computed number stands, and its formula and unit; the whole where they are not written. */
export type ComputedPlaces = { readonly whole: Place; readonly by: Place; readonly unit: Place };

/** A link or figure in prose. */
export type LinkPlace = { readonly url: string; readonly place: Place };

/** Where the pieces of one step stand in its file. */
export type StepPlaces = {
  readonly heading: Place;
  /** The component that says what the step takes; the heading where it is missing. */
  readonly task: Place;
  /** Attributes of that component by name. */
  readonly attributes: ReadonlyMap<string, Place>;
  /** As `ways` of the step. */
  readonly ways: readonly WayPlaces[];
  readonly cannot?: WayPlaces;
  /** As `cautions` of the step. */
  readonly cautions: readonly Place[];
  /** As `computed` of the step. */
  readonly computed: readonly ComputedPlaces[];
  readonly links: readonly LinkPlace[];
};

/** Where everything of a tree stands in its file, for whoever finds something wrong with it later. */
export type TreePlaces = {
  readonly file: string;
  /** The front matter, or the first line where there is none. */
  readonly start: Place;
  /** Front matter by key, joined with dots: `recheck`, `facts.line-volts.usual`. The place is the value's. */
  readonly keys: ReadonlyMap<string, Place>;
  readonly opening: { readonly cautions: readonly Place[]; readonly links: readonly LinkPlace[] };
  /** As `steps` of the tree. */
  readonly steps: readonly StepPlaces[];
};

/** Where an attribute of a step's component stands; the component where the attribute is not written. */
export const attributePlace = (places: StepPlaces, name: string): Place => places.attributes.get(name) ?? places.task;

/** Where a key of the front matter stands; the front matter where it is not written. */
export const keyPlace = (places: TreePlaces, key: string): Place => places.keys.get(key) ?? places.start;
