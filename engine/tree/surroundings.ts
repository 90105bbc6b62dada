import type { FunctionTable } from '../formula/index.ts';
import type { QuantityFact } from './tree.ts';

/** What a tree needs to know of a bench: its names. */
export type BenchNames = {
  readonly terminals: readonly string[];
  /** Leads that can be lifted; each is also a point that can be measured. */
  readonly leads: readonly string[];
  /** Settings by their states, first as found. */
  readonly settings: Readonly<Record<string, readonly string[]>>;
  readonly signs: readonly string[];
  readonly faults: readonly string[];
  readonly facts: Readonly<Record<string, QuantityFact>>;
  /** What a reading may be taken `at`; not checked where absent. */
  readonly places?: readonly string[];
};

/** What a tree needs to know of another tree: its title, its steps' titles by id, and where it starts. */
export type TreeNames = { readonly title: string; readonly steps: Readonly<Record<string, string>>; readonly first: string };

/** Everything outside a tree file that its names are checked against. */
export type Surroundings = {
  readonly benches: Readonly<Record<string, BenchNames>>;
  readonly trees: Readonly<Record<string, TreeNames>>;
  readonly functions: FunctionTable;
  /** Paths of the figures that there are, such as `figures/terminals.png`; not checked where absent. */
  readonly figures?: readonly string[];
};

/** A tree with nothing around it: no bench, no other tree, no functions. */
export const NO_SURROUNDINGS: Surroundings = { benches: {}, trees: {}, functions: {} };
