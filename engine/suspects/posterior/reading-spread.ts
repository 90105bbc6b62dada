import { type QuantityKindName, quantityKind } from '../../quantity/index.ts';

/**
 * How far a sound model may be off a real circuit beside what the meter adds, one standard deviation: a share of the reading, and SI. Makers'
 * tolerances, aged parts and contact resistance are common practice's few percent.
 */
export const MODEL_SPREAD: { readonly share: number; readonly least: Readonly<Partial<Record<QuantityKindName, number>>> } = {
  share: 0.03,
  least: {
    'ac-voltage': 0.5,
    'dc-voltage': 0.1,
    resistance: 0.3,
    continuity: 0.3,
    'ac-current': 5e-3,
    'dc-current': 5e-8,
    pressure: 5,
    temperature: 1,
  },
};

/** Below this a scale counts as linear, above it as logarithmic; and the most that is ever read. SI. For what is said of a reading that nothing predicts. */
const SCALES: Readonly<Partial<Record<QuantityKindName, readonly [near: number, most: number]>>> = {
  'ac-voltage': [1, 300],
  'dc-voltage': [1, 300],
  resistance: [1, 4e7],
  continuity: [1, 4e7],
  capacitance: [1e-8, 1e-3],
  'ac-current': [0.05, 50],
  'dc-current': [1e-6, 10],
  pressure: [50, 5000],
};

// OL by itself, on a range that has it.
const OPEN_SHARE = 0.25;

/**
 * Density of a reading (per SI unit; for OL its probability) where nothing is known of the circuit: even over a scale that is linear near
 * zero and logarithmic above.
 */
export function unknownDensity(kind: QuantityKindName, found: number): number {
  const { open } = quantityKind(kind);
  if (found === Number.POSITIVE_INFINITY) return OPEN_SHARE;
  const [near, most] = SCALES[kind] ?? [1, 1000];
  const rest = open ? 1 - OPEN_SHARE : 1;
  const sides = quantityKind(kind).floor === 0 ? 1 : 2;
  return rest / (sides * Math.asinh(most / near) * Math.hypot(found, near));
}

/** One standard deviation of a reading about what a model predicts: the model's own spread, and half the meter's accuracy interval. */
export const readingDeviation = (kind: QuantityKindName, predicted: number, halfWidth: number): number =>
  Math.hypot(halfWidth / 2, MODEL_SPREAD.share * predicted, MODEL_SPREAD.least[kind] ?? 1e-9);

/**
 * Density of a reading (per SI unit; for OL its probability) where a model predicts these values in these shares of houses. Two neighbouring
 * values of one fault hold what lies between them too, unless they are so far apart that something switched.
 */
export function predictedDensity(
  kind: QuantityKindName,
  predicted: Float64Array,
  shares: readonly number[],
  found: number,
  halfWidth: number,
): number {
  const values: { readonly value: number; readonly share: number }[] = [];
  let open = 0;
  for (const [i, value] of predicted.entries()) {
    const share = shares[i] ?? 0;
    if (value === Number.POSITIVE_INFINITY) open += share;
    else if (!Number.isNaN(value)) values.push({ value, share });
  }
  if (found === Number.POSITIVE_INFINITY) return open;
  values.sort((a, b) => a.value - b.value);
  let density = 0;
  for (const [i, { value, share }] of values.entries()) {
    const beside = [values[i - 1], values[i + 1]].flatMap((other) => (other && isOneStretch(kind, value, other.value) ? [other.value] : []));
    const deviation = readingDeviation(kind, value, halfWidth);
    // Each value spreads its share over the stretches on its sides, or keeps it where there is none.
    if (beside.length === 0) density += share * stretchDensity(found, value, value, deviation);
    for (const other of beside) density += (share / beside.length) * stretchDensity(found, Math.min(value, other), Math.max(value, other), deviation);
  }
  return density;
}

// Line volts move a reading by a tenth, a long cable a small one by all of it; a contact that drops out moves a large one by all of it.
const ONE_STRETCH: { readonly share: number; readonly least: Readonly<Partial<Record<QuantityKindName, number>>> } = {
  share: 0.6,
  least: { 'ac-voltage': 3, 'dc-voltage': 0.5, resistance: 3, continuity: 3, 'ac-current': 0.05, 'dc-current': 2e-7, pressure: 60, temperature: 5 },
};

/** Whether what lies between two values of one fault in two houses can be met too. */
export const isOneStretch = (kind: QuantityKindName, a: number, b: number): boolean =>
  Math.abs(a - b) <= Math.max(ONE_STRETCH.least[kind] ?? 0, ONE_STRETCH.share * Math.max(Math.abs(a), Math.abs(b)));

/** An even stretch blurred by a normal error. */
function stretchDensity(found: number, low: number, high: number, deviation: number): number {
  if (high - low < deviation * 1e-3) return Math.exp(-0.5 * ((found - low) / deviation) ** 2) / (deviation * Math.sqrt(2 * Math.PI));
  return (normalShare((found - low) / deviation) - normalShare((found - high) / deviation)) / (high - low);
}

/** The share of a normal distribution below z. Abramowitz and Stegun 26.2.17, within 7.5e-8 (from memory). */
function normalShare(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)) * series;
  return z >= 0 ? 1 - tail : tail;
}
