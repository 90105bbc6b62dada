import { type Bench, measure, prepare, type Situation, solve } from '../bench/index.ts';
import { NEEDS_DEAD_CIRCUIT, quantityKind, showQuantity } from '../quantity/index.ts';
import type { ReadingStep } from '../tree/index.ts';
import { judgeValue } from '../walk/index.ts';
import { type BenchCase, type BenchWalk, readingOn, resolutionOf } from './bench-walk.ts';
import type { Miss } from './fault-proof.ts';
import type { CaseStep } from './walk-case.ts';

/** The known trap that a wrong end fell into, at the step where it did. */
export type MissReason =
  | { readonly code: 'fooled-by-stray-voltage'; readonly at: CaseStep; readonly reads: string; readonly truly: string }
  | { readonly code: 'fooled-by-parallel-path'; readonly at: CaseStep; readonly reads: string; readonly truly: string; readonly through: string }
  | { readonly code: 'too-close-to-call'; readonly at: CaseStep; readonly band: string; readonly reads: string; readonly edge: string };

/** Looks along the walk of a miss for the first reading that misled it. */
export function missReason(walk: BenchWalk, bench: Bench, { at, end, alone }: Miss): MissReason | undefined {
  for (const step of end.path) {
    const found = strayVoltage(walk, at, step) ?? parallelPath(walk, bench, at, step);
    if (found) return found;
  }
  if (alone) return undefined;
  const close = end.path.find(({ shown }) => shown.reading !== undefined && shown.ons.length > 1);
  return close && tooClose(close);
}

const show = (step: ReadingStep, value: number | 'open'): string => (value === 'open' ? 'OL' : showQuantity(value, step.takes, step.unit));

function tooClose(at: CaseStep): MissReason | undefined {
  const { reading } = at.shown;
  if (!reading) return undefined;
  const [own = '', ...others] = at.shown.ons;
  return { code: 'too-close-to-call', at, band: own, reads: reading.shown, edge: others.join('; ') };
}

/** Volts that a low-impedance input would not show: then it was stray capacitance that was read. */
function strayVoltage(walk: BenchWalk, at: BenchCase, taken: CaseStep): MissReason | undefined {
  const { step } = taken.step;
  if (step.kind !== 'reading' || step.input === 'low' || quantityKind(step.takes).dimension !== quantityKind('ac-voltage').dimension)
    return undefined;
  const { gauge } = taken.step;
  const solved = walk.solved(at, taken.circuit);
  const { reading } = taken.shown;
  if (!gauge || !solved || !reading || reading.value === 'open') return undefined;
  const low = readingOn(solved, { ...step, input: 'low' }, gauge);
  if (!low?.ok || low.value === 'open' || differsLittle(low.value, reading.value)) return undefined;
  const judged = judgeValue(gauge, { typed: '', si: low.value, unit: '', resolution: resolutionOf(gauge, low.value) }, walk.fact(at));
  if (!judged.ok || judged.value.on === taken.on) return undefined;
  return { code: 'fooled-by-stray-voltage', at: taken, reads: show(step, reading.value), truly: show(step, low.value) };
}

// A low-impedance input also loads a weak source; only volts that all but vanish under it are stray.
const differsLittle = (low: number, high: number): boolean => low > 0.2 * high;

/** Ohms that the parts between the two points alone would not show: then it was read through something else. */
function parallelPath(walk: BenchWalk, bench: Bench, at: BenchCase, taken: CaseStep): MissReason | undefined {
  const { step } = taken.step;
  if (step.kind !== 'reading' || !step.across || !NEEDS_DEAD_CIRCUIT.has(step.takes)) return undefined;
  const { gauge } = taken.step;
  const { reading } = taken.shown;
  if (!gauge || !reading) return undefined;
  const alone = aloneBetween(bench, step.across, taken, at);
  if (!alone || alone.value === undefined) return undefined;
  const { value, through } = alone;
  const judged = judgeValue(gauge, { typed: '', si: value, unit: '', resolution: value === 'open' ? 0 : resolutionOf(gauge, value) }, walk.fact(at));
  if (!judged.ok || taken.shown.ons.includes(judged.value.on)) return undefined;
  return { code: 'fooled-by-parallel-path', at: taken, reads: show(step, reading.value), truly: show(step, value), through };
}

/** What the parts that stand straight between two points show by themselves, and a part through which else it was read. */
function aloneBetween(
  bench: Bench,
  points: readonly [string, string],
  taken: CaseStep,
  at: BenchCase,
): { readonly value: number | 'open' | undefined; readonly through: string } | undefined {
  const ends = new Set(points.map((point) => leadNode(bench, point)));
  const between = Object.entries(bench.parts).filter(
    ([, part]) => 'between' in part && part.kind !== 'source' && part.between.every((end) => ends.has(end)),
  );
  if (between.length === 0) return undefined;
  // A contact's condition speaks of parts that are not in the lone circuit.
  if (between.some(([, part]) => 'closed-when' in part)) return undefined;
  const parts = Object.fromEntries(between);
  const faults = Object.fromEntries(Object.entries(bench.faults).filter(([, fault]) => Object.hasOwn(parts, fault.part)));
  const lone: Bench = { ...bench, parts, faults, signs: {} };
  const situation: Situation = {
    settings: {},
    facts: { ...at.facts },
    faults: at.fault !== undefined && Object.hasOwn(faults, at.fault) ? [at.fault] : [],
    jumpers: [],
    lifted: [],
  };
  const solved = solve(prepare(lone), situation);
  const { step } = taken.step;
  if (!solved.ok || step.kind !== 'reading') return undefined;
  const [a, b] = points.map((point) => leadNode(bench, point));
  if (a === undefined || b === undefined) return undefined;
  const measured = measure(solved, step.takes, { across: [a, b] });
  const other = Object.entries(bench.parts).find(
    ([name, part]) => !Object.hasOwn(parts, name) && 'between' in part && part.between.some((end) => ends.has(end)),
  );
  return { value: measured.ok ? measured.value : undefined, through: other?.[0] ?? '' };
}

/** The node that a lead is landed on when it is not lifted; a point that is no lead is its own node. */
function leadNode(bench: Bench, point: string): string {
  for (const part of Object.values(bench.parts)) {
    if (!('lead' in part) || part.lead === undefined) continue;
    for (const lead of typeof part.lead === 'string' ? [part.lead] : part.lead) {
      const [name, on] = lead.split(' on ');
      if (name === point && on !== undefined) return on;
    }
  }
  return point;
}
