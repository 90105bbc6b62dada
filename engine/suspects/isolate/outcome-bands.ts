import { countSize, halfWidth, type MeterAccuracy, type QuantityKindName, quantityKind } from '../../quantity/index.ts';
import type { Probe } from '../observe/probe.ts';
import { isOneStretch } from '../posterior/reading-spread.ts';

/** One thing that a probe can show, SI: a range of readings, OL, or a sign seen or not (1 or 0). */
export type Outcome = { readonly low: number; readonly high: number; readonly open: boolean };

export type Outcomes = {
  /** In the order of their values; OL last. */
  readonly outcomes: readonly Outcome[];
  /** Which of them each fault shows in each house: of[fault][house]. */
  readonly of: readonly Uint8Array[];
};

/**
 * Room that must stay free between two outcomes for an edge, beside the meter's accuracy: a share of the upper, and SI at the least. The model and
 * a real circuit differ by some percent; two readings that only arithmetic tells apart are one.
 */
export const ROOM: { readonly share: number; readonly least: Readonly<Partial<Record<QuantityKindName, number>>> } = {
  share: 0.08,
  least: { 'ac-voltage': 1, 'dc-voltage': 0.1, resistance: 1, continuity: 1, 'ac-current': 0.02, 'dc-current': 1e-7, pressure: 40, temperature: 3 },
};

/** Ohms past which a meter on a damp terminal board shows OL as well as a number. */
export const NEARLY_OPEN = 2e6;

/**
 * What a probe can show, told apart with the meter's accuracy and some room on both sides of every edge. What one fault shows in two houses is one
 * range with all between, unless something switched (`whole`: even then). Undefined where the bench cannot tell in some house with some fault.
 */
export function outcomesOf(probe: Probe, rows: readonly Float64Array[], meter: MeterAccuracy, whole = false): Outcomes | undefined {
  if (rows.some((row) => row.some(Number.isNaN))) return undefined;
  if (probe.kind === 'look') {
    const both = rows.some((row) => row.includes(0)) && rows.some((row) => row.includes(1));
    if (!both) return undefined;
    const label = (value: number): Outcome => ({ low: value, high: value, open: false });
    return { outcomes: [label(0), label(1)], of: rows.map((row) => Uint8Array.from(row)) };
  }
  const { takes } = probe;
  const { floor } = quantityKind(takes);
  const isOpen = (value: number): boolean => value >= (quantityKind(takes).open ? NEARLY_OPEN : Number.POSITIVE_INFINITY);
  const widened = (low: number, high: number) => ({
    low: Math.max(floor, low - halfWidth(meter, low, countSize(meter, low))),
    high: high + halfWidth(meter, high, countSize(meter, high)),
  });
  const stretches = rows.flatMap((row) =>
    stretchesOf(
      takes,
      row.filter((value) => !isOpen(value)),
      whole,
    ).map(([low, high]) => widened(low, high)),
  );
  stretches.sort((a, b) => a.low - b.low);
  const merged: { low: number; high: number }[] = [];
  for (const { low, high } of stretches) {
    const last = merged.at(-1);
    const room = Math.max(ROOM.share * Math.abs(low), ROOM.least[takes] ?? 0);
    if (last && low <= last.high + room) last.high = Math.max(last.high, high);
    else merged.push({ low, high });
  }
  const open = rows.some((row) => row.some(isOpen));
  const outcomes: readonly Outcome[] = [
    ...merged.map((range) => ({ ...range, open: false })),
    ...(open ? [{ low: Number.POSITIVE_INFINITY, high: Number.POSITIVE_INFINITY, open: true }] : []),
  ];
  const place = (value: number): number => (isOpen(value) ? merged.length : merged.findIndex(({ low, high }) => value >= low && value <= high));
  return { outcomes, of: rows.map((row) => Uint8Array.from(row, place)) };
}

function stretchesOf(takes: QuantityKindName, values: Float64Array, whole: boolean): readonly (readonly [number, number])[] {
  const stretches: [number, number][] = [];
  for (const value of values.sort()) {
    const last = stretches.at(-1);
    if (last && (whole || isOneStretch(takes, last[1], value))) last[1] = value;
    else stretches.push([value, value]);
  }
  return stretches;
}
