import type { Bench, BenchFact } from './bench.ts';
import { indexBench } from './bench-index.ts';

/** What a tree may name of a bench. */
export type BenchNames = {
  readonly terminals: readonly string[];
  /** Leads that can be lifted; each is also a point that can be measured, at its loose end once lifted. */
  readonly leads: readonly string[];
  /** States of each setting, first as found. */
  readonly settings: Readonly<Record<string, readonly string[]>>;
  readonly signs: readonly string[];
  readonly faults: readonly string[];
  readonly facts: Readonly<Record<string, BenchFact>>;
  /** What a reading may be taken `at`: parts with a current, and places. */
  readonly places: readonly string[];
};

export function namesOf(bench: Bench): BenchNames {
  const { leads, parts } = indexBench(bench);
  return {
    terminals: [...bench.terminals],
    leads: leads.map(({ name }) => name),
    settings: bench.settings,
    signs: Object.keys(bench.signs),
    faults: Object.keys(bench.faults),
    facts: bench.facts,
    places: parts.filter(({ known }) => known.ends.length > 0 || known.spec.kind === 'place').map(({ name }) => name),
  };
}
