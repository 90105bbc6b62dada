import type { Caution, FactSpec, Prose, SettingHold, Step, Tree } from '../tree/index.ts';
import type { Judged } from './walk-event.ts';

/**
 * Where a walk stands. `opening`: the tree's own cautions and facts, before the first step. `cautions`: those of the step
 * must be read. `work`: the step waits for what the tech finds. `verdict`: what that means is shown. `finding`: the part
 * is named. Then the closing ritual: `repair`, `put-back`, `recheck`, `closing` (all is done, the tech closes). `handoff`:
 * told to stop and whom to call, then `put-back`. `closed`: the log takes no more.
 */
export type WalkPhase =
  | 'opening'
  | 'cautions'
  | 'work'
  | 'verdict'
  | 'finding'
  | 'repair'
  | 'put-back'
  | 'recheck'
  | 'handoff'
  | 'closing'
  | 'closed';

export type WalkOutcome = 'fixed' | 'nothing-wrong' | 'not-repaired' | 'not-fixed' | 'handed-off';

/** One band of the scale with its numbers for this house, SI; null is unbounded. */
export type ScaleBand = { readonly on: string; readonly low: number | null; readonly high: number | null; readonly leadsTo: string };

/** The scale of a reading step. Bands in order of value; `open` and `otherwise` come last, with no numbers. */
export type Scale = { readonly unit: string; readonly bands: readonly ScaleBand[]; readonly reading?: Judged };

/** Something temporary that is still in place. `key` is what `put-back` names. */
export type PutBackItem =
  | { readonly key: string; readonly kind: 'setting'; readonly setting: string; readonly now: string; readonly asFound: string }
  | { readonly key: string; readonly kind: 'jumper'; readonly from: string; readonly to: string }
  | { readonly key: string; readonly kind: 'lifted'; readonly lead: string };

/** One step of the path so far. */
export type PathEntry = {
  readonly tree: string;
  readonly step: string;
  readonly title: string;
  readonly kind: Step['kind'];
  /** The way taken: a band, a label, `done`, `known`, `cannot`; absent while the step is open. */
  readonly on?: string;
  readonly typed?: string;
  readonly judged?: Judged;
  /** Walked although the reading was too close to call. */
  readonly acceptedTooClose?: boolean;
  readonly jumped?: boolean;
};

/** A fact of this site as it stands. */
export type FactState = {
  readonly name: string;
  readonly spec: FactSpec;
  /** What was typed, or the usual value's text. */
  readonly text: string;
  readonly source: 'usual' | 'told' | 'read';
  /** Told outside the range that the tree was made for: its bands may not hold on this site. */
  readonly outside: boolean;
};

/** A number worked out for this house. `why` stands in place of `text` where it has no answer. */
export type ComputedNumber = {
  readonly shows: string;
  /** The formula. */
  readonly by: string;
  /** The value with its unit: `1.9 lb/h`. */
  readonly text?: string;
  readonly why?: string;
  /** The facts that went into it. */
  readonly given: readonly FactState[];
  /** Where its functions come from; none where it is arithmetic alone. */
  readonly sources: readonly string[];
};

export type Verdict = {
  readonly on: string;
  readonly leadsTo: string;
  readonly judged?: Judged;
  readonly tooClose: boolean;
};

/** Everything a screen or terminal needs to show of a walk; computed from its state, holds no state of its own. */
export type WalkView = {
  readonly phase: WalkPhase;
  readonly paused: boolean;
  readonly tree: Tree;
  /** The open step; absent in `opening`. In the ritual it is the finding's or handoff's step, in `recheck` the recheck step. */
  readonly step?: Step;
  /** Cautions of the opening stand on every step. */
  readonly openingCautions: readonly Caution[];
  /** The cautions to be shown now and which of them have been read. */
  readonly cautions: readonly { readonly caution: Caution; readonly read: boolean; readonly mustRead: boolean }[];
  /** Settings that the step wants and that do not hold now. */
  readonly unmet: readonly SettingHold[];
  readonly settings: Readonly<Record<string, string>>;
  readonly scale?: Scale;
  /** The open step's computed numbers, with the facts as they stand. */
  readonly computed: readonly ComputedNumber[];
  readonly verdict?: Verdict;
  readonly path: readonly PathEntry[];
  readonly putBack: readonly PutBackItem[];
  readonly facts: readonly FactState[];
  readonly finding?: { readonly title: string; readonly faults: readonly string[]; readonly prose: Prose; readonly repair: Prose };
  /** Faults whose repair did not cure the complaint. */
  readonly excluded: readonly string[];
  readonly repaired?: { readonly done: boolean; readonly note?: string };
  readonly rechecks: readonly { readonly on: string; readonly passed: boolean; readonly typed?: string }[];
  readonly notes: readonly string[];
  readonly photos: readonly { readonly photo: string; readonly ask?: string }[];
  readonly outcome?: WalkOutcome;
  /** Whether an earlier step can be gone back to now. */
  readonly canStepBack: boolean;
};
