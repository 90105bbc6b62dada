import { type Band, bandInterval, type FormulaProblem, type FunctionTable } from '../formula/index.ts';
import { fromSi, halfWidth, type MeterAccuracy, quantityKind, readTypedValue, type TypedValue, toSi, unitOf } from '../quantity/index.ts';
import { failure, type Result, success } from '../result.ts';
import type { ReadingStep, Way } from '../tree/index.ts';
import type { Refusal } from './refusal.ts';
import type { Judged } from './walk-event.ts';

/** A reading step with its bands parsed, ready to judge. */
export type Gauge = {
  readonly step: Pick<ReadingStep, 'takes' | 'unit'>;
  readonly bands: readonly { readonly way: Way; readonly band: Band }[];
  readonly meter: MeterAccuracy;
  readonly functions: FunctionTable;
};

/** One band with its numbers for this house, SI; null is unbounded, and both are null for `open` and `otherwise`. */
export type GaugeBand = { readonly on: string; readonly band: Band; readonly low: number | null; readonly high: number | null };

type FactValue = (name: string) => number | undefined;

/** The bands of a gauge at this site's facts, in the order written. */
export function gaugeBands(gauge: Gauge, fact: FactValue): Result<readonly GaugeBand[], Refusal> {
  const found: GaugeBand[] = [];
  for (const { way, band } of gauge.bands) {
    let problem: FormulaProblem | undefined;
    const interval = bandInterval(band, { value: fact, functions: gauge.functions, report: (p) => (problem ??= p) });
    if (problem) return failure({ code: 'band-not-computable', on: way.on, problem });
    found.push({ on: way.on, band, low: finite(interval?.low), high: finite(interval?.high) });
  }
  return success(found);
}

const finite = (value: number | undefined): number | null => (value !== undefined && Number.isFinite(value) ? value : null);

const lowEdge = (band: GaugeBand): number => band.low ?? Number.NEGATIVE_INFINITY;
const highEdge = (band: GaugeBand): number => band.high ?? Number.POSITIVE_INFINITY;
const hasEdges = (band: GaugeBand): boolean => band.band.kind !== 'open' && band.band.kind !== 'otherwise';

/**
 * Judges what was typed against the bands: which one it falls in, how far from its edges, and which others the meter's
 * accuracy reaches into.
 */
export function judge(gauge: Gauge, typed: string, fact: FactValue): Result<Judged, Refusal> {
  const value = readTypedValue(typed, gauge.step.takes, gauge.step.unit);
  if (!value.ok) return failure({ code: 'not-readable', problem: value.problem });
  return judgeValue(gauge, value.value, fact);
}

/** As `judge`, for a value that has been read already (a simulated meter's). */
export function judgeValue(gauge: Gauge, value: TypedValue, fact: FactValue): Result<Judged, Refusal> {
  const bands = gaugeBands(gauge, fact);
  if (!bands.ok) return bands;
  const { si, unit, resolution } = value;
  const shared = { unit, resolution, bands: bands.value.map(({ on, low, high }) => ({ on, low, high })) };
  const otherwise = bands.value.find((b) => b.band.kind === 'otherwise');
  if (si === 'open') {
    const band = bands.value.find((b) => b.band.kind === 'open') ?? otherwise;
    if (!band) return failure({ code: 'no-band', typed: value.typed });
    return success({ ...shared, si, halfWidth: 0, on: band.on, margin: null, reaches: [] });
  }
  const ranged = bands.value.filter(hasEdges);
  const band = ranged.find((b) => lowEdge(b) <= si && si < highEdge(b)) ?? otherwise;
  if (!band) return failure({ code: 'no-band', typed: value.typed });
  const half = readingHalfWidth(gauge, si, resolution);
  const edges = (hasEdges(band) ? [band] : ranged).flatMap((b) => [b.low, b.high]).filter((edge) => edge !== null);
  // The floor of what a meter can show is no edge to be close to.
  const { floor } = quantityKind(gauge.step.takes);
  const real = edges.filter((edge) => edge > floor);
  const margin = real.length === 0 ? null : Math.min(...real.map((edge) => Math.abs(edge - si)));
  return success({
    ...shared,
    si,
    halfWidth: half,
    on: band.on,
    margin,
    reaches: reached(band, ranged, otherwise, Math.max(floor, si - half), si + half),
  });
}

/** Half the interval that the true value lies in. On a scale with its own zero (°F), percent is of the number shown. */
export function readingHalfWidth(gauge: Gauge, si: number, resolution: number): number {
  const unit = unitOf(gauge.step.unit ?? quantityKind(gauge.step.takes).unit);
  if (!unit || unit.offset === 0) return halfWidth(gauge.meter, si, resolution);
  const shown = fromSi(si, unit);
  return toSi(halfWidth(gauge.meter, shown, resolution / unit.factor), unit) - toSi(0, unit);
}

function reached(own: GaugeBand, ranged: readonly GaugeBand[], otherwise: GaugeBand | undefined, low: number, high: number): string[] {
  const others = ranged.filter((b) => b.on !== own.on && lowEdge(b) < high && highEdge(b) > low);
  if (!otherwise || otherwise.on === own.on) return others.map((b) => b.on);
  // 'otherwise' is reached where no band with edges covers the interval.
  let covered = low;
  for (const band of [...ranged].sort((a, b) => lowEdge(a) - lowEdge(b))) {
    if (lowEdge(band) > covered) break;
    covered = Math.max(covered, highEdge(band));
  }
  return [...others.map((b) => b.on), ...(covered < high ? [otherwise.on] : [])];
}
