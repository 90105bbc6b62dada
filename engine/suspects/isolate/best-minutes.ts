import { prepare } from '../../bench/index.ts';
import { readMeterAccuracy } from '../../quantity/index.ts';
import type { CompiledEdition } from '../../walk/index.ts';
import { probeKey, probeOf } from '../observe/probe.ts';
import { isolateFaults } from './isolate-faults.ts';
import { isolationProblem } from './isolation-problem.ts';
import { treeMinutes } from './tree-minutes.ts';

/** The fewest expected minutes known for an edition's benches, counted with the tree's own minutes. */
export type BestMinutes = {
  /** Mean over the benches, as the proof counts. 0 where there is none. */
  readonly minutes: number;
  /** No tree over the probes that were searched takes less. */
  readonly bound: number;
  readonly byBench: Readonly<Record<string, { readonly minutes: number; readonly bound: number; readonly method: 'exact' | 'rollout' }>>;
};

// A proof is waited for: past this the rollout is good enough.
const MOST_SETS_BESIDE_A_PROOF = 10_000;

/**
 * The best order to find each bench's faults in, beside which a tree's own expected minutes can be put. The wiring is taken as known. A tree that begins by seeing the
 * complaint is measured against the best that does.
 */
export function bestMinutes(edition: CompiledEdition, { most = MOST_SETS_BESIDE_A_PROOF }: { readonly most?: number } = {}): BestMinutes {
  const meter = readMeterAccuracy(edition.root.meter);
  const byBench: Record<string, BestMinutes['byBench'][string]> = {};
  for (const name of edition.root.benches) {
    const bench = edition.edition.benches[name];
    if (!bench || Object.keys(bench.faults).length === 0) continue;
    const safety = edition.safety(name);
    const problem = isolationProblem(bench, {
      minutes: treeMinutes(edition, prepare(bench)),
      ...(meter.ok && { meter: meter.value }),
      ...(safety && { safety }),
    });
    const seen = problem.tests[problem.complaint]?.probe;
    const first = edition.steps.get(edition.start)?.step;
    const probe = first?.kind === 'look' || first?.kind === 'reading' ? probeOf(first) : undefined;
    const from = seen && probe && probeKey(seen) === probeKey(probe) ? 'complaint' : 'anything';
    const { minutes, bound, method } = isolateFaults(problem, { from, most });
    byBench[name] = { minutes, bound, method };
  }
  const all = Object.values(byBench);
  const mean = (of: (each: (typeof all)[number]) => number): number =>
    all.length === 0 ? 0 : all.reduce((sum, each) => sum + of(each), 0) / all.length;
  return { minutes: mean((each) => each.minutes), bound: mean((each) => each.bound), byBench };
}
