import { type Band, bandEdges, bandInterval } from './band.ts';
import { type FactBox, type FactPoint, factPoints } from './fact-box.ts';
import type { FormulaProblem } from './formula.ts';
import type { FunctionTable } from './formula-function.ts';
import { showFormula } from './show-formula.ts';

/** Where the bands of one reading fail to part its range. Indices are into the bands given; numbers are SI. */
export type PartitionProblem =
  | { readonly code: 'gap'; readonly from: number; readonly to: number; readonly facts: FactPoint; readonly after?: number; readonly before?: number }
  | { readonly code: 'open-not-covered' }
  | { readonly code: 'overlap'; readonly from: number; readonly to: number; readonly facts: FactPoint; readonly bands: readonly [number, number] }
  | { readonly code: 'empty'; readonly band: number; readonly facts: FactPoint; readonly low: number; readonly high: number }
  | { readonly code: 'repeated'; readonly bands: readonly [number, number] }
  | { readonly code: 'not-computable'; readonly band: number; readonly facts: FactPoint; readonly problem: FormulaProblem };

export type ReadingRange = { readonly floor: number; readonly open: boolean };

// Edges written differently but equal for every fact differ by rounding only.
const SAME = 1e-9;

const nearlySame = (a: number, b: number): boolean => a === b || Math.abs(a - b) <= SAME * Math.max(Math.abs(a), Math.abs(b));

/**
 * Checks that the bands cover a reading's whole range once, for any facts in the box: at its usual values, its corners and
 * points inside. Reports each kind of problem between the same two bands once, at the first facts that show it.
 */
export function partitionProblems(bands: readonly Band[], range: ReadingRange, box: FactBox, functions: FunctionTable): readonly PartitionProblem[] {
  const problems = new Map<string, PartitionProblem>();
  const add = (key: string, problem: PartitionProblem): void => {
    if (!problems.has(key)) problems.set(key, problem);
  };
  const repeatedAt = (kind: Band['kind']): void => {
    const at = bands.flatMap((band, i) => (band.kind === kind ? [i] : []));
    const [first, second] = at;
    if (first !== undefined && second !== undefined) add(`repeated ${kind}`, { code: 'repeated', bands: [first, second] });
  };
  repeatedAt('otherwise');
  repeatedAt('open');
  const otherwise = bands.some((band) => band.kind === 'otherwise');
  if (range.open && !otherwise && !bands.some((band) => band.kind === 'open')) add('open', { code: 'open-not-covered' });

  for (const facts of factPoints(box)) {
    const intervals: { low: number; high: number; index: number }[] = [];
    for (const [index, band] of bands.entries()) {
      const interval = bandInterval(band, {
        value: (name) => facts[name],
        functions,
        report: (problem) => add(`compute ${index}`, { code: 'not-computable', band: index, facts, problem }),
      });
      if (!interval || Number.isNaN(interval.low) || Number.isNaN(interval.high)) continue;
      if (interval.low >= interval.high) add(`empty ${index}`, { code: 'empty', band: index, facts, low: interval.low, high: interval.high });
      else intervals.push({ ...interval, index });
    }
    intervals.sort((a, b) => a.low - b.low || a.high - b.high);
    let covered = range.floor;
    let last: { index: number; high: number } | undefined;
    for (const { low, high, index } of intervals) {
      if (last && low < covered && !sameEdge(bands, last.index, index) && !nearlySame(low, covered)) {
        add(`overlap ${last.index} ${index}`, { code: 'overlap', from: low, to: Math.min(covered, high), facts, bands: [last.index, index] });
      } else if (!otherwise && low > covered && !nearlySame(low, covered)) {
        add(`gap ${last?.index} ${index}`, { code: 'gap', from: covered, to: low, facts, before: index, ...(last && { after: last.index }) });
      }
      if (high > covered) {
        covered = high;
        last = { index, high };
      }
    }
    if (!otherwise && covered < Number.POSITIVE_INFINITY) {
      add(`gap ${last?.index} end`, { code: 'gap', from: covered, to: Number.POSITIVE_INFINITY, facts, ...(last && { after: last.index }) });
    }
  }
  // A band that cannot be computed leaves a hole that is its own fault: say the cause, not the hole.
  const all = [...problems.values()];
  return all.some((p) => p.code === 'not-computable') ? all.filter((p) => p.code !== 'gap') : all;
}

/** Whether one band's upper edge is written as the other's lower edge: then they meet whatever the facts are. */
function sameEdge(bands: readonly Band[], lower: number, upper: number): boolean {
  const below = bands[lower];
  const above = bands[upper];
  if (!below || !above) return false;
  const { high } = bandEdges(below);
  const { low } = bandEdges(above);
  return high !== undefined && low !== undefined && showFormula(high) === showFormula(low);
}
