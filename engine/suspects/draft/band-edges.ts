import { readBand, showBand } from '../../formula/index.ts';
import { type QuantityKindName, quantityKind, toSi, unitOf } from '../../quantity/index.ts';
import { NEARLY_OPEN, type Outcome } from '../isolate/outcome-bands.ts';

/** One band of a drafted reading: its text, and the outcome that it leads on; none where no suspect reads like that. */
export type DraftedBand = { readonly on: string; readonly outcome: number | undefined };

/** The unit that a drafted reading is typed in. */
export function draftUnit(kind: QuantityKindName, outcomes: readonly Outcome[]): string {
  const most = Math.max(0, ...outcomes.filter(({ open }) => !open).map(({ low, high }) => Math.max(Math.abs(low), Math.abs(high))));
  if (kind === 'dc-current' || kind === 'ac-current') return most < 1e-3 ? 'uA' : most < 1 ? 'mA' : 'A';
  return quantityKind(kind).unit;
}

type Edge = { readonly si: number; readonly text: string };

// A gap wider than this share of its upper end has a middle that neither side is near to.
const WIDE = 0.4;

/**
 * Bands for a reading whose suspects show these outcomes (in order of value, OL last), each with its number in the test. An edge stands in the gap between two
 * outcomes, with the meter's accuracy free on both sides. A wide gap gets two, and what lies between them, below the lowest or far above the highest, leads nowhere
 * that a suspect is: it is a reading that this circuit does not give.
 */
export function draftBands(
  kind: QuantityKindName,
  outcomes: readonly { readonly outcome: Outcome; readonly number: number }[],
  unit: string,
): readonly DraftedBand[] {
  const ranged = outcomes.filter(({ outcome }) => !outcome.open);
  const over = outcomes.find(({ outcome }) => outcome.open)?.number;
  const { floor, open } = quantityKind(kind);
  const ratio = open || kind === 'dc-current' || kind === 'ac-current';
  const edges: { readonly edge: Edge; readonly above: number | undefined }[] = [];
  let below: number | undefined = ranged[0]?.number ?? (open ? undefined : over);
  const first = ranged[0]?.outcome;
  if (first && first.low > floor && Number.isFinite(floor)) {
    const edge = edgeBetween(kind, ratio ? first.low / 4 : first.low * 0.5, first.low, unit, ratio);
    if (edge && first.low > smallest(kind)) {
      below = undefined;
      edges.push({ edge, above: ranged[0]?.number });
    }
  }
  for (const [i, { outcome }] of ranged.entries()) {
    const next = ranged[i + 1];
    const limit = next?.outcome.low ?? (over === undefined ? undefined : NEARLY_OPEN);
    if (limit === undefined) {
      const top = edgeBetween(kind, outcome.high, beyond(outcome.high, kind), unit, ratio);
      if (top) edges.push({ edge: top, above: undefined });
      continue;
    }
    const above = next?.number ?? over;
    const isWide = limit - outcome.high > WIDE * Math.abs(limit);
    const lower = isWide ? edgeBetween(kind, outcome.high, third(outcome.high, limit, 2, ratio, kind), unit, ratio) : undefined;
    const upper = isWide ? edgeBetween(kind, third(outcome.high, limit, 1, ratio, kind), limit, unit, ratio) : undefined;
    if (lower && upper && lower.si < upper.si) edges.push({ edge: lower, above: undefined }, { edge: upper, above });
    else {
      const middle = edgeBetween(kind, outcome.high, limit, unit, ratio);
      if (middle) edges.push({ edge: middle, above });
    }
  }
  return written(below, edges, over, open);
}

/** Edges as bands; neighbours that lead to the same end are one. */
function written(
  below: number | undefined,
  edges: readonly { readonly edge: Edge; readonly above: number | undefined }[],
  over: number | undefined,
  open: boolean,
): readonly DraftedBand[] {
  const bands: DraftedBand[] = [];
  const kept = edges.filter(({ above }, i) => above !== (i === 0 ? below : edges[i - 1]?.above));
  const first = kept[0];
  if (!first) bands.push({ on: 'otherwise', outcome: below });
  else {
    bands.push({ on: band(`below ${first.edge.text}`), outcome: below });
    for (const [i, { edge, above }] of kept.entries()) {
      const next = kept[i + 1];
      bands.push({ on: band(next ? `${edge.text} to ${next.edge.text}` : `above ${edge.text}`), outcome: above });
    }
  }
  return open && first ? [...bands, { on: 'open', outcome: over }] : bands;
}

function band(text: string): string {
  const read = readBand(text);
  return read.ok ? showBand(read.value) : text;
}

const smallest = (kind: QuantityKindName): number => (kind === 'resistance' || kind === 'continuity' ? 1 : kind === 'ac-voltage' ? 2 : 0);

const beyond = (high: number, kind: QuantityKindName): number =>
  Math.max(2 * high, high + Math.max(2, smallest(kind) * 4) * (kind.endsWith('current') ? 1e-7 : 1));

/** The point that leaves `part` thirds of a gap below it. */
function third(low: number, high: number, part: 1 | 2, ratio: boolean, kind: QuantityKindName): number {
  if (!ratio) return low + ((high - low) * (3 - part)) / 3;
  const from = Math.max(low, smallest(kind) / 2, high * 1e-6);
  return from * (high / from) ** ((3 - part) / 3);
}

/** The roundest number near the middle of a gap, in the unit that it reads best in. */
function edgeBetween(kind: QuantityKindName, low: number, high: number, unit: string, ratio: boolean): Edge | undefined {
  const middle = ratio && high > 0 ? Math.sqrt(Math.max(low, high * 1e-3) * high) : (low + high) / 2;
  const symbol = kind === 'resistance' || kind === 'continuity' ? (middle >= 1e6 ? 'Mohm' : middle >= 1e3 ? 'kohm' : 'ohm') : unit;
  const known = unitOf(symbol);
  if (!known) return undefined;
  for (let digits = 1; digits <= 4; digits += 1) {
    const value = Number(((middle - known.offset) / known.factor).toPrecision(digits));
    const si = toSi(value, known);
    const margin = (high - low) * (digits < 3 ? 0.2 : 0.05);
    if (si > low + margin && si < high - margin) return { si, text: symbol === '' ? String(value) : `${value} ${symbol}` };
  }
  return undefined;
}
