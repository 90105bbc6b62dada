import { prepare } from '../../bench/index.ts';
import { readMeterAccuracy } from '../../quantity/index.ts';
import type { CompiledEdition } from '../../walk/index.ts';
import { probeKey, probeOf } from '../observe/probe.ts';
import { isolateFaults } from './isolate-faults.ts';
import { type IsolationProblem, isolationProblem } from './isolation-problem.ts';
import { treeMinutes } from './tree-minutes.ts';

/** The fewest expected minutes known for an edition's benches, counted with the tree's own minutes. */
export type BestMinutes = {
  /** Mean over the benches, as the proof counts. 0 where there is none. */
  readonly minutes: number;
  /** No tree over the probes that were searched takes less. */
  readonly bound: number;
  /** `exact` where it is so on every bench. */
  readonly method: 'exact' | 'rollout';
  readonly byBench: Readonly<Record<string, BenchBest>>;
};

export type BenchBest = { readonly minutes: number; readonly bound: number; readonly method: 'exact' | 'rollout' };

/** Sets that a search beside a proof may open. A proof is waited for: past this the rollout is good enough. */
export const MOST_SETS_BESIDE_A_PROOF = 10_000;

/** A bench as an edition's tree measures it: its own minutes, its meter, and whether it begins by seeing the complaint. */
export type MeasuredBench = { readonly problem: IsolationProblem; readonly from: 'complaint' | 'anything' };

/** The benches that a tree can be measured on: those that it names and that have faults. */
export const measuredBenches = ({ root, edition }: CompiledEdition): readonly string[] =>
  root.benches.filter((name) => Object.keys(edition.benches[name]?.faults ?? {}).length > 0);

/** One bench of an edition, gathered for measuring its tree; undefined where the edition has no such bench. */
export function measuredBench(edition: CompiledEdition, name: string): MeasuredBench | undefined {
  const bench = edition.edition.benches[name];
  if (!bench) return undefined;
  const meter = readMeterAccuracy(edition.root.meter);
  const safety = edition.safety(name);
  const problem = isolationProblem(bench, {
    minutes: treeMinutes(edition, prepare(bench)),
    ...(meter.ok && { meter: meter.value }),
    ...(safety && { safety }),
  });
  const seen = problem.tests[problem.complaint]?.probe;
  const first = edition.steps.get(edition.start)?.step;
  const probe = first?.kind === 'look' || first?.kind === 'reading' ? probeOf(first) : undefined;
  return { problem, from: seen && probe && probeKey(seen) === probeKey(probe) ? 'complaint' : 'anything' };
}

/**
 * The best order to find each bench's faults in, beside which a tree's own expected minutes can be put. The wiring is taken as known. A tree that begins by seeing the
 * complaint is measured against the best that does.
 */
export function bestMinutes(edition: CompiledEdition, { most = MOST_SETS_BESIDE_A_PROOF }: { readonly most?: number } = {}): BestMinutes {
  const byBench: Record<string, BenchBest> = {};
  for (const name of measuredBenches(edition)) {
    const measured = measuredBench(edition, name);
    if (measured) byBench[name] = benchBest(measured, most);
  }
  return bestOver(byBench);
}

export function benchBest({ problem, from }: MeasuredBench, most: number): BenchBest {
  const { minutes, bound, method } = isolateFaults(problem, { from, most });
  return { minutes, bound, method };
}

/** Benches counted alike, as the proof counts them. */
export function bestOver(byBench: BestMinutes['byBench']): BestMinutes {
  const all = Object.values(byBench);
  const mean = (of: (each: BenchBest) => number): number => (all.length === 0 ? 0 : all.reduce((sum, each) => sum + of(each), 0) / all.length);
  return {
    minutes: mean(({ minutes }) => minutes),
    bound: mean(({ bound }) => bound),
    method: all.every(({ method }) => method === 'exact') ? 'exact' : 'rollout',
    byBench,
  };
}
