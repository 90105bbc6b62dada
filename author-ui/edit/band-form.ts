import {
  type Band,
  bandEdges,
  bandInterval,
  type Environment,
  type Formula,
  readBand,
  readFormula,
  showBand,
  showFormula,
} from '../../engine/formula/index.ts';
import { fromSi, type QuantityKindName, quantityKind, unitOf } from '../../engine/quantity/index.ts';
import type { Way } from '../../engine/tree/index.ts';

/** A band as a form shows it: its kind, and the text of each edge. */
export type BandForm = { readonly kind: BandFormKind; readonly first: string; readonly second: string };

export const BAND_FORM_KINDS = ['below', 'range', 'above', 'within', 'open', 'otherwise'] as const;
export type BandFormKind = (typeof BAND_FORM_KINDS)[number];

/** How many texts a kind of band needs. */
export const edgesOf = (kind: BandFormKind): 0 | 1 | 2 => (kind === 'open' || kind === 'otherwise' ? 0 : kind === 'range' ? 2 : 1);

/** The form of a band's text; undefined where the text is no band. */
export function bandForm(on: string): BandForm | undefined {
  const band = readBand(on);
  if (!band.ok) return undefined;
  const { value } = band;
  switch (value.kind) {
    case 'below':
    case 'above':
      return { kind: value.kind, first: showFormula(value.edge), second: '' };
    case 'range':
      return { kind: 'range', first: showFormula(value.from), second: showFormula(value.to) };
    case 'within-percent':
    case 'within':
      return { kind: 'within', first: showBand(value).slice('within '.length), second: '' };
    default:
      return { kind: value.kind, first: '', second: '' };
  }
}

/** The text of a band that a form says; it may still be no band. */
export function bandText({ kind, first, second }: BandForm): string {
  const edge = first.trim();
  switch (kind) {
    case 'range':
      return `${edge} to ${second.trim()}`;
    case 'open':
    case 'otherwise':
      return kind;
    default:
      return `${kind} ${edge}`;
  }
}

/** Ways with one edge, known by its text, replaced wherever it bounds a band: neighbours that met still meet. Other ways are the same values. */
export function moveEdge(ways: readonly Way[], edge: string, to: string): Way[] {
  const read = readFormula(to);
  if (!read.ok) return [...ways];
  const moved = (formula: Formula): Formula => (showFormula(formula) === edge ? read.value : formula);
  return ways.map((way) => {
    const band = readBand(way.on);
    if (!band.ok) return way;
    const on = showBand(withEdges(band.value, moved));
    return on === way.on || on === showBand(band.value) ? way : { ...way, on };
  });
}

/**
 * Ways with one edge of one band moved. A neighbor that ended, or began, where this band began, or ended, is moved with it: the two still meet.
 * As they are where the text is no number or the band has no such edge.
 */
export function moveSide(ways: readonly Way[], at: number, side: 'low' | 'high', to: string): Way[] {
  const read = readFormula(to);
  const own = readBand(ways[at]?.on ?? '');
  const edge = own.ok ? bandEdges(own.value)[side] : undefined;
  if (!read.ok || !own.ok || !edge) return [...ways];
  const text = showFormula(edge);
  const other = side === 'low' ? 'high' : 'low';
  return ways.map((way, place) => {
    const band = readBand(way.on);
    if (!band.ok || band.value.kind === 'within' || band.value.kind === 'within-percent') return way;
    const wanted = place === at ? side : other;
    const its = bandEdges(band.value)[wanted];
    if (!its || showFormula(its) !== text) return way;
    return { ...way, on: showBand(withEdges(band.value, (formula) => (formula === its ? read.value : formula))) };
  });
}

function withEdges(band: Band, moved: (formula: Formula) => Formula): Band {
  switch (band.kind) {
    case 'below':
    case 'above':
      return { ...band, edge: moved(band.edge) };
    case 'range':
      return { ...band, from: moved(band.from), to: moved(band.to) };
    default:
      return band;
  }
}

/** An edge on the drawn scale: its text, where it lies in SI, and whether it can be dragged there. */
export type DrawnEdge = { readonly text: string; readonly si: number; readonly isFree: boolean };

/** The edges of all bands, least first, each once. Edges that cannot be computed are left out. */
export function drawnEdges(ways: readonly Way[], env: Environment): readonly DrawnEdge[] {
  const edges = new Map<string, DrawnEdge>();
  for (const { on } of ways) {
    const band = readBand(on);
    const interval = band.ok ? bandInterval(band.value, env) : undefined;
    if (!band.ok || !interval) continue;
    const add = (formula: Formula, si: number): void => {
      if (Number.isFinite(si)) edges.set(showFormula(formula), { text: showFormula(formula), si, isFree: isFree(formula) });
    };
    const { value } = band;
    if (value.kind === 'below') add(value.edge, interval.high);
    if (value.kind === 'above') add(value.edge, interval.low);
    if (value.kind === 'range') {
      add(value.from, interval.low);
      add(value.to, interval.high);
    }
  }
  return [...edges.values()].sort((a, b) => a.si - b.si);
}

const isFree = (formula: Formula): boolean => formula.op === 'literal' || formula.op === 'percent-of';

/** The text of an edge after it was dragged to a value in SI, in the form it is written in: a number in its unit, or a percentage. */
export function draggedEdge(edge: string, si: number, env: Environment, kind: QuantityKindName): string {
  const read = readFormula(edge);
  if (!read.ok) return edge;
  if (read.value.op === 'percent-of') {
    const whole = bandInterval({ kind: 'above', edge: read.value.of }, env)?.low ?? Number.NaN;
    const percent = Math.round((100 * si) / whole);
    return Number.isFinite(percent) && percent > 0 ? showFormula({ ...read.value, percent: String(percent) }) : edge;
  }
  if (read.value.op !== 'literal') return edge;
  const unit = read.value.unit || quantityKind(kind).unit;
  const known = unitOf(unit);
  if (!known) return edge;
  const value = rounded(fromSi(si, known));
  return unit === '' ? value : `${value} ${unit}`;
}

/** Two figures below ten, whole numbers to a hundred, then by fives and so on: as anyone would write an edge. */
function rounded(value: number): string {
  const size = Math.abs(value);
  if (size === 0) return '0';
  const step = size < 1 ? 0.05 : size < 10 ? 0.5 : size < 100 ? 1 : 10 ** (Math.floor(Math.log10(size)) - 1);
  return String(Number((Math.round(value / step) * step).toPrecision(6)));
}
