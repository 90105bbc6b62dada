import {
  countSize,
  fromSi,
  halfWidth,
  type MeterAccuracy,
  QUANTITY_KINDS,
  type QuantityKindName,
  toSi,
  type Unit,
  USUAL_METER,
  unitOf,
  unitSign,
} from '../quantity/index.ts';
import { type Circuit, pointNumber } from './circuit.ts';
import { FieldView } from './field-view.ts';
import type { LiveClass, LiveGraph } from './live-graph.ts';
import { solvedGraph } from './liveness.ts';
import { emptyField, type Field, LEAK_OHMS, type Line, solveField } from './network.ts';
import { branchOf } from './part-stamp.ts';
import { isAtRest, settle } from './settle.ts';
import type { Solved, Unsolved } from './solution.ts';
import { settingNumbers } from './solve.ts';

/** Where a reading is taken: across two points, red lead first, or at a part. */
export type MeterPlace = { readonly across: readonly [string, string] } | { readonly at: string };

export type MeterOptions = {
  /** `low`: through the low-impedance input. */
  readonly input?: 'low';
  readonly accuracy?: MeterAccuracy;
};

export type MeterReading = {
  readonly ok: true;
  readonly quantity: QuantityKindName;
  /** What is there, SI, with the meter's own load on it; 'open' where the meter shows over-range. */
  readonly value: number | 'open';
  /** What the display shows: the value rounded to its counts, SI. */
  readonly reads: number | 'open';
  /** The display with its unit: `24.1 V`, `0.71 MΩ`, `OL`. */
  readonly shown: string;
  readonly unit: string;
  /** What a meter of this accuracy may show at the least and at the most, SI; the meter corners. Both 'open' for OL. */
  readonly low: number | 'open';
  readonly high: number | 'open';
};

/** What a meter of this accuracy may show for one and the same reading: at the least, as rounded, and at the most. OL stays OL. */
export const meterCorners = ({ low, reads, high }: MeterReading): readonly (number | 'open')[] => (reads === 'open' ? [reads] : [low, reads, high]);

/** Why a meter has no number to show. */
export type MeterRefusal =
  | { readonly ok: false; readonly code: 'circuit-live'; readonly quantity: QuantityKindName; readonly source: string; readonly class: LiveClass }
  | {
      readonly ok: false;
      readonly code: 'not-read-here';
      readonly quantity: QuantityKindName;
      readonly place: string;
      readonly reads: readonly string[];
    }
  | { readonly ok: false; readonly code: 'unknown-point'; readonly point: string; readonly known: readonly string[] }
  | { readonly ok: false; readonly code: 'not-solved'; readonly why: Unsolved };

/** Ω of a volts input, of its low-impedance input, and the most that its ohms range shows before OL. */
export const INPUT_OHMS = 1e7;
export const LOW_INPUT_OHMS = 3e3;
export const MOST_OHMS = 4e7;

/** The finest count of each range, in the kind's own unit: 200.0 Ω, 2.000 V AC, 200.0 mV DC, 2.000 A AC, 20.00 µA DC, 0.1 degree. */
const FINEST: Readonly<Partial<Record<QuantityKindName, number>>> = {
  'ac-voltage': 1e-3,
  'dc-voltage': 1e-4,
  resistance: 0.1,
  continuity: 0.1,
  capacitance: 1e-5,
  'ac-current': 1e-3,
  'dc-current': 1e-5,
  frequency: 0.01,
  temperature: 0.1,
  'temperature-difference': 0.1,
  pressure: 0.01,
  humidity: 0.1,
};

/** Below this there is no frequency to count. */
const LEAST_COUNTED_VOLTS = 1;

/** Takes one reading on a solved circuit. */
export function measure(solved: Solved, quantity: QuantityKindName, place: MeterPlace, options: MeterOptions = {}): MeterReading | MeterRefusal {
  const accuracy = options.accuracy ?? USUAL_METER;
  if ('at' in place) return measureAt(solved, quantity, place.at, accuracy);
  const { prepared } = solved.circuit;
  const points = place.across;
  const known = [...prepared.index.nodeNumber.keys()];
  const unknown = points.find((point) => !prepared.index.nodeNumber.has(point));
  if (unknown !== undefined) return { ok: false, code: 'unknown-point', point: unknown, known };
  const [a, b] = [pointNumber(prepared, points[0], solved.circuit.lifted), pointNumber(prepared, points[1], solved.circuit.lifted)];
  switch (quantity) {
    case 'ac-voltage':
    case 'dc-voltage':
    case 'frequency': {
      const volts = loadedVolts(solved, a, b, quantity === 'dc-voltage' ? 'dc' : 'ac', options.input === 'low' ? LOW_INPUT_OHMS : INPUT_OHMS);
      if (typeof volts !== 'number') return { ok: false, code: 'not-solved', why: volts };
      if (quantity !== 'frequency') return shown(quantity, volts, accuracy);
      return shown(quantity, volts < LEAST_COUNTED_VOLTS ? 0 : prepared.omega / (2 * Math.PI), accuracy);
    }
    case 'resistance':
    case 'continuity':
    case 'capacitance': {
      const live = graphOf(solved).drive(a, b);
      if (live) {
        return { ok: false, code: 'circuit-live', quantity, source: prepared.index.parts[live.source]?.name ?? '', class: live.class };
      }
      return quantity === 'capacitance' ? capacitanceOf(solved, a, b, accuracy) : ohmsOf(solved, a, b, quantity, accuracy);
    }
    default:
      return {
        ok: false,
        code: 'not-read-here',
        quantity,
        place: points.join(' to '),
        reads: ['ac-voltage', 'dc-voltage', 'frequency', 'resistance', 'continuity', 'capacitance'],
      };
  }
}

// A drill or a proof takes many readings of one solution.
const GRAPHS = new WeakMap<Solved, LiveGraph>();

function graphOf(solved: Solved): LiveGraph {
  const graph = GRAPHS.get(solved) ?? solvedGraph(solved);
  GRAPHS.set(solved, graph);
  return graph;
}

function measureAt(solved: Solved, quantity: QuantityKindName, name: string, accuracy: MeterAccuracy): MeterReading | MeterRefusal {
  const { circuit, view } = solved;
  const { parts, partNumber } = circuit.prepared.index;
  const part = partNumber.get(name);
  const known = part === undefined ? undefined : parts[part]?.known;
  if (part === undefined || !known) return { ok: false, code: 'unknown-point', point: name, known: [...partNumber.keys()] };
  if (quantity === 'ac-current' && known.ends.length > 0) return shown(quantity, view.amps(part), accuracy);
  if (quantity === 'dc-current' && known.ends.length > 0) return shown(quantity, view.dcAmps(part), accuracy);
  const reading = circuit.places.find((candidate) => candidate.part === part && candidate.quantity === quantity);
  if (reading) return shown(quantity, reading.reading(view), accuracy);
  const reads = [
    ...(known.ends.length > 0 ? ['ac-current', 'dc-current'] : []),
    ...circuit.places.filter((candidate) => candidate.part === part).map((candidate) => candidate.quantity),
  ];
  return { ok: false, code: 'not-read-here', quantity, place: name, reads };
}

/**
 * Volts between two nodes with the meter's input across them (Thévenin: V = Voc·Zm / (Zm + Zth)). If that load moves a contact, the circuit
 * is settled again with the meter in it.
 */
function loadedVolts(solved: Solved, a: number, b: number, line: Line, ohms: number): number | Unsolved {
  const { circuit, states, method } = solved;
  const field = line === 'ac' ? solved.ac : solved.dc;
  if (a === b) return 0;
  const at = (values: Float64Array, node: number): number => (node < 0 ? 0 : (values[node] ?? 0));
  const openRe = at(field.re, a) - at(field.re, b);
  const openIm = at(field.im, a) - at(field.im, b);
  const signed = (re: number, im: number): number => (line === 'ac' ? Math.hypot(re, im) : re);
  const apart = islandLeak(field, circuit.size, a, b);
  // Between two islands only the leaks to ground close the loop.
  if (apart !== undefined) return (signed(openRe, openIm) * ohms) / (ohms + apart);
  if (line === 'dc' && !circuit.hasDc) return 0;
  const test = emptyField(circuit.size);
  if (solveField(circuit, states, line, method, test, { into: a, outOf: b }) >= 0) return signed(openRe, openIm);
  const sumRe = ohms + at(test.re, a) - at(test.re, b);
  const sumIm = at(test.im, a) - at(test.im, b);
  const size = sumRe ** 2 + sumIm ** 2;
  const currentRe = (openRe * sumRe + openIm * sumIm) / size;
  const currentIm = (openIm * sumRe - openRe * sumIm) / size;
  const loaded: Field = { re: Float64Array.from(field.re), im: Float64Array.from(field.im), island: field.island };
  for (let i = 0; i < circuit.size; i += 1) {
    loaded.re[i] = (loaded.re[i] ?? 0) - (currentRe * (test.re[i] ?? 0) - currentIm * (test.im[i] ?? 0));
    loaded.im[i] = (loaded.im[i] ?? 0) - (currentRe * (test.im[i] ?? 0) + currentIm * (test.re[i] ?? 0));
  }
  const settings = settingNumbers(circuit.prepared, solved.situation.settings);
  if ('ok' in settings) return settings;
  const view =
    line === 'ac'
      ? new FieldView(circuit, settings, states, loaded, () => solved.dc)
      : new FieldView(circuit, settings, states, solved.ac, () => loaded);
  if (isAtRest(circuit, states, view)) return signed(currentRe * ohms, currentIm * ohms);
  const settled = settle(withMeter(circuit, a, b, ohms), settings, states);
  if (!settled.ok) return settled;
  const again = line === 'ac' ? settled.ac : settled.dc;
  return signed(at(again.re, a) - at(again.re, b), at(again.im, a) - at(again.im, b));
}

/** Ω of the leaks in series where two nodes are in two islands; undefined where they are in one. */
function islandLeak({ island }: Field, size: number, a: number, b: number): number | undefined {
  const ground = island[size];
  const [one, other] = [a < 0 ? ground : island[a], b < 0 ? ground : island[b]];
  if (one === other) return undefined;
  const leak = (root: number | undefined): number => (root === ground ? 0 : LEAK_OHMS / island.filter((each) => each === root).length);
  return leak(one) + leak(other);
}

function withMeter(circuit: Circuit, a: number, b: number, ohms: number): Circuit {
  const y = { re: 1 / ohms, im: 0, dc: 1 / ohms };
  const branches = [...circuit.branches, branchOf(-1, { a, b, on: y })];
  return { ...circuit, branches, shape: circuit.prepared.shapes.of(branches, circuit.transformers) };
}

/** The meter's test current through everything in parallel, sources dead: what DC sees between the two points. */
function ohmsOf(
  { circuit, states, method }: Solved,
  a: number,
  b: number,
  quantity: 'resistance' | 'continuity',
  accuracy: MeterAccuracy,
): MeterReading {
  if (a === b) return shown(quantity, 0, accuracy);
  const field = emptyField(circuit.size);
  const failed = solveField(circuit, states, 'dc', method, field, { into: a, outOf: b });
  if (failed >= 0 || islandLeak(field, circuit.size, a, b) !== undefined) return over(quantity);
  const ohms = (a < 0 ? 0 : (field.re[a] ?? 0)) - (b < 0 ? 0 : (field.re[b] ?? 0));
  return ohms > MOST_OHMS ? over(quantity) : shown(quantity, Math.max(0, ohms), accuracy);
}

/** What the line frequency sees between the two points, sources dead, if that is a capacitance: C = −1/(ωX) of the series form. */
function capacitanceOf({ circuit, states, method }: Solved, a: number, b: number, accuracy: MeterAccuracy): MeterReading {
  const field = emptyField(circuit.size);
  const failed = a === b ? 0 : solveField(circuit, states, 'ac', method, field, { into: a, outOf: b });
  if (failed >= 0 || islandLeak(field, circuit.size, a, b) !== undefined) return over('capacitance');
  const reactance = (a < 0 ? 0 : (field.im[a] ?? 0)) - (b < 0 ? 0 : (field.im[b] ?? 0));
  return reactance < -1e-6 ? shown('capacitance', -1 / (circuit.prepared.omega * reactance), accuracy) : over('capacitance');
}

const over = (quantity: QuantityKindName): MeterReading => ({
  ok: true,
  quantity,
  value: 'open',
  reads: 'open',
  shown: 'OL',
  unit: QUANTITY_KINDS[quantity].unit,
  low: 'open',
  high: 'open',
});

// The unit that the display steps to, and the decimals that one count leaves.
const DISPLAY: Readonly<Partial<Record<QuantityKindName, readonly string[]>>> = {
  'ac-voltage': ['V'],
  'dc-voltage': ['mV', 'V'],
  resistance: ['ohm', 'kohm', 'Mohm'],
  continuity: ['ohm', 'kohm', 'Mohm'],
  capacitance: ['nF', 'uF'],
  'ac-current': ['A'],
  'dc-current': ['uA', 'mA', 'A'],
};

function shown(quantity: QuantityKindName, value: number, accuracy: MeterAccuracy): MeterReading {
  const kind = QUANTITY_KINDS[quantity];
  const base = unitOf(kind.unit) ?? PLAIN;
  // A display counts in its own unit: tenths of a degree Fahrenheit, not of a kelvin.
  const written = fromSi(value, base);
  const count = Math.max(countSize(accuracy, written), FINEST[quantity] ?? 0);
  // Without the tail of binary digits that a product of counts leaves.
  const reads = count > 0 ? Number((Math.round(written / count) * count).toPrecision(12)) : written;
  const half = halfWidth(accuracy, reads, count);
  return {
    ok: true,
    quantity,
    value,
    reads: toSi(reads, base),
    ...display(quantity, reads, count, base),
    low: Math.max(toSi(reads - half, base), kind.floor),
    high: toSi(reads + half, base),
  };
}

const PLAIN: Unit = { symbol: '', dimension: QUANTITY_KINDS.number.dimension, factor: 1, offset: 0 };

/** The display's text: stepped to the unit that fits, with as many decimals as one count has in it, zeros and all. */
function display(quantity: QuantityKindName, reads: number, count: number, base: Unit): { readonly shown: string; readonly unit: string } {
  const steps = (DISPLAY[quantity] ?? []).flatMap((symbol) => unitOf(symbol) ?? []);
  const size = Math.abs(reads) * base.factor;
  const unit = steps.findLast((step) => size >= step.factor * 0.9999) ?? steps[0] ?? base;
  const scale = base.factor / unit.factor;
  const decimals = Math.max(0, Math.min(6, Math.round(-Math.log10(count * scale))));
  const text = (reads * scale).toFixed(decimals);
  const sign = unitSign(unit.symbol);
  return { shown: `${Number(text) === 0 ? text.replace('-', '') : text}${sign ? ` ${sign}` : ''}`, unit: unit.symbol };
}
