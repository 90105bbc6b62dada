import { type QuantityKindName, quantityKind } from '../../engine/quantity/index.ts';

/** A band as a scale draws it, SI; null is unbounded. `open` and `otherwise` bands have no numbers. */
export type BandNumbers = { readonly on: string; readonly low: number | null; readonly high: number | null };

/** One stretch of a drawn scale. `range`: numbers on the line; `open`: the meter shows OL; `rest`: whatever no other band takes. */
export type Segment<B extends BandNumbers = BandNumbers> = {
  readonly kind: 'range' | 'open' | 'rest';
  readonly band: B;
  readonly low: number | null;
  readonly high: number | null;
};

const hasNumbers = (band: BandNumbers): boolean => band.low !== null || band.high !== null;

/**
 * The stretches of a scale from its least value up, OL last. Where a band says `otherwise`, the gaps that the numbered bands leave are
 * its stretches, so that a tech sees which numbers it means; only where there is no gap does it stand apart.
 */
export function scaleSegments<B extends BandNumbers>(bands: readonly B[], kind: QuantityKindName): readonly Segment<B>[] {
  const { floor, open } = quantityKind(kind);
  const numbered = bands.filter(hasNumbers).sort((a, b) => (a.low ?? Number.NEGATIVE_INFINITY) - (b.low ?? Number.NEGATIVE_INFINITY));
  const rest = bands.find((band) => !hasNumbers(band) && band.on !== 'open');
  const segments: Segment<B>[] = [];
  let reached: number | null = Number.isFinite(floor) ? floor : null;
  let started = false;
  for (const band of numbered) {
    const gap = band.low !== null && (started || reached === null || band.low > reached) && (reached === null || band.low > reached);
    if (rest && gap) segments.push({ kind: 'rest', band: rest, low: started ? reached : null, high: band.low });
    segments.push({ kind: 'range', band, low: band.low, high: band.high });
    started = true;
    reached = band.high;
    if (reached === null) break;
  }
  if (rest && started && reached !== null) segments.push({ kind: 'rest', band: rest, low: reached, high: null });
  const openBand = bands.find((band) => !hasNumbers(band) && band.on === 'open');
  if (openBand) segments.push({ kind: 'open', band: openBand, low: null, high: null });
  else if (rest && open) segments.push({ kind: 'open', band: rest, low: null, high: null });
  if (rest && !segments.some((segment) => segment.band === rest)) segments.unshift({ kind: 'rest', band: rest, low: null, high: null });
  return segments;
}

/** Where a value lies: the place of its stretch, and how far along it (0 at its low end, 1 at its high end). */
export type ScalePlace = { readonly index: number; readonly along: number };

/** Finds a value on the stretches; undefined where none takes it. Stretches are drawn of one size, so this is an ordinal scale. */
export function placeOnScale(segments: readonly Segment[], si: number | 'open', kind: QuantityKindName): ScalePlace | undefined {
  const index = segments.findIndex((segment) => (si === 'open' ? segment.kind === 'open' : holds(segment, si)));
  const segment = segments[index];
  if (!segment) return undefined;
  return { index, along: si === 'open' ? 0.5 : alongSegment(segment, si, quantityKind(kind).floor) };
}

const holds = (segment: Segment, si: number): boolean =>
  segment.kind !== 'open' &&
  (segment.low !== null || segment.high !== null) &&
  si >= (segment.low ?? Number.NEGATIVE_INFINITY) &&
  si < (segment.high ?? Number.POSITIVE_INFINITY);

function alongSegment({ low, high }: Segment, si: number, floor: number): number {
  const from = low ?? (Number.isFinite(floor) ? floor : null);
  if (from !== null && high !== null) return clamp((si - from) / (high - from));
  if (from !== null) {
    // No upper end: half way at twice the edge, and never quite at the end.
    const over = si - from;
    return clamp(over / (over + (Math.abs(from) || 1)));
  }
  if (high !== null) {
    const under = high - si;
    return clamp(1 - under / (under + (Math.abs(high) || 1)));
  }
  return 0.5;
}

const clamp = (value: number): number => Math.min(1, Math.max(0, value));
