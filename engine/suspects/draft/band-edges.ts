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
  const isOpenEnded = OPEN_ENDED.has(kind);
  if (first && !isOpenEnded && Number.isFinite(floor) && first.low > 2 * nothing(kind)) {
    below = undefined;
    edges.push({ edge: edgeBetween(kind, ratio ? first.low / 4 : first.low / 2, first.low, unit, ratio), above: ranged[0]?.number });
  }
  for (const [i, { outcome }] of ranged.entries()) {
    const next = ranged[i + 1];
    const limit = next?.outcome.low ?? (over === undefined ? undefined : NEARLY_OPEN);
    if (limit === undefined) {
      if (isOpenEnded) continue;
      edges.push({ edge: edgeBetween(kind, outcome.high, beyond(outcome.high, kind), unit, ratio), above: undefined });
      continue;
    }
    const above = next?.number ?? over;
    const isWide = limit - outcome.high > WIDE * Math.abs(limit);
    if (isWide) {
      const lower = edgeBetween(kind, outcome.high, within(outcome.high, limit, 0.5, kind, ratio), unit, ratio);
      const upper = edgeBetween(kind, within(outcome.high, limit, 0.5, kind, ratio), limit, unit, ratio);
      edges.push({ edge: lower, above: undefined }, { edge: upper, above });
    } else edges.push({ edge: edgeBetween(kind, outcome.high, limit, unit, ratio), above });
  }
  return written(below, edges, over, open);
}

/** More of what the highest outcome is, or less of what the lowest is, is the same still: no amount of carbon monoxide is too much to be flue gas. */
const OPEN_ENDED: ReadonlySet<QuantityKindName> = new Set(['concentration']);

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

/** Below this a reading of the kind is as good as nothing, SI. */
const NOTHING: Readonly<Partial<Record<QuantityKindName, number>>> = {
  'ac-voltage': 1,
  'dc-voltage': 0.2,
  resistance: 0.5,
  continuity: 0.5,
  'ac-current': 0.01,
  'dc-current': 5e-8,
};

const nothing = (kind: QuantityKindName): number => NOTHING[kind] ?? 0;

/** Far enough above the highest reading that a suspect gives. */
const beyond = (high: number, kind: QuantityKindName): number => Math.max(2 * high, high + 4 * nothing(kind));

/** The point at a share of a gap: by size where readings differ by factors, else evenly. */
function within(low: number, high: number, share: number, kind: QuantityKindName, ratio: boolean): number {
  if (!ratio || high <= 0) return low + (high - low) * share;
  const from = Math.min(Math.max(low, nothing(kind)), high);
  return from * (high / from) ** share;
}

// An edge keeps this share of its gap free on either side.
const FREE = 0.2;

/** The roundest number near the middle of a gap, in the unit that it reads best in. */
function edgeBetween(kind: QuantityKindName, low: number, high: number, unit: string, ratio: boolean): Edge {
  const middle = within(low, high, 0.5, kind, ratio);
  const [least, most] = [within(low, high, FREE, kind, ratio), within(low, high, 1 - FREE, kind, ratio)];
  const symbol = kind === 'resistance' || kind === 'continuity' ? (middle >= 1e6 ? 'Mohm' : middle >= 1e3 ? 'kohm' : 'ohm') : unit;
  const known = unitOf(symbol);
  const written = (digits: number): Edge => {
    const value = Number(((middle - (known?.offset ?? 0)) / (known?.factor ?? 1)).toPrecision(digits));
    return { si: known ? toSi(value, known) : value, text: symbol === '' ? String(value) : `${value} ${symbol}` };
  };
  const [rounded] = [1, 2, 3].map(written).filter(({ si }) => si > least && si < most);
  return rounded ?? written(6);
}
