import { factCorners, type MeterReading, prepare } from '../../engine/bench/index.ts';
import type { FactPoint } from '../../engine/formula/index.ts';
import { BenchWalk, type Shown, walkCase } from '../../engine/proof/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { type CircuitState, compileEdition, type Edition } from '../../engine/walk/index.ts';
import type { Untold } from './try-state.ts';

/** A value of a meter: SI, or OL. */
export type MeterValue = number | 'open';

/** What a reading step shows with one fault (or none) of one bench, as its walk comes there. */
export type ExpectedReading = {
  readonly bench: string;
  readonly fault: string | undefined;
  /** The display where every fact is as usual, or in the first house in which the walk comes here. */
  readonly shown: string;
  readonly value: MeterValue;
  /** The least and the most that a meter of the tree's accuracy may show, over every corner of the house's facts. */
  readonly low: MeterValue;
  readonly high: MeterValue;
  /** The bands that it lands in, or could within the meter's accuracy, each judged by the facts of its own house; that of `value` first. */
  readonly ways: readonly string[];
  /** Of a sound circuit, whose own walk does not come here: read in the circuit as this fault's walk has it. */
  readonly asIn?: string;
};

/** A walk that comes to a reading step where the bench has no number to show. */
export type ExpectedUntold = { readonly bench: string; readonly fault: string | undefined; readonly why: Untold };

/** A fault of a bench; undefined for the sound circuit. */
export type BenchFault = { readonly bench: string; readonly fault: string | undefined };

export type StepExpected = { readonly readings: readonly ExpectedReading[]; readonly untold: readonly ExpectedUntold[] };

/** `steps` by key, only those that some walk comes to; `of` is all that was walked. */
export type ExpectedValues = {
  readonly of: readonly BenchFault[];
  readonly steps: Readonly<Record<string, StepExpected>>;
  readonly corners: 'usual' | 'all';
};

type Seen = {
  readings: MeterReading[];
  ways: string[];
  untold: Untold | undefined;
  asIn?: { readonly fault: string; readonly circuit: CircuitState };
};
type Case = BenchFault & { readonly walk: BenchWalk; readonly corners: readonly FactPoint[] };

/**
 * Walks every fault of every bench of the root tree, as the proof does, and gathers what each reading step shows. Gives what usual houses show
 * first, then all corners; between cases it pauses, so that whoever runs it can look up.
 */
export function* expectedValues(edition: Edition): Generator<ExpectedValues | undefined, void> {
  const compiled = compileEdition(edition, TRADE_FUNCTIONS);
  const benches = compiled.root.benches.flatMap((name) => (edition.benches[name] ? [{ name, bench: edition.benches[name] }] : []));
  const cases = benches.flatMap(({ name, bench }) => {
    const walk = new BenchWalk(compiled, name, prepare(bench));
    const corners = factCorners(bench);
    return [undefined, ...Object.keys(bench.faults)].map((fault): Case => ({ bench: name, fault, walk, corners }));
  });
  const sound = new Map(cases.filter(({ fault }) => fault === undefined).map((one) => [one.bench, one]));
  const found = new Map<string, Map<Case, Seen>>();
  const look = (one: Case, corner: number): void => {
    const facts = one.corners[corner];
    if (!facts) return;
    for (const { step, shown, circuit } of walkCase(compiled, one.walk, { fault: one.fault, facts }, `${one.fault ?? ''} ${corner}`).steps) {
      if (step.step.kind !== 'reading') continue;
      const here = found.get(step.key) ?? new Map<Case, Seen>();
      found.set(step.key, here);
      note(here, one, shown);
      const healthy = sound.get(one.bench);
      const seen = healthy && here.get(healthy);
      if (!healthy || one.fault === undefined || (seen && seen.asIn?.fault !== one.fault)) continue;
      const asIn = seen?.asIn ?? { fault: one.fault, circuit };
      note(here, healthy, one.walk.shown(step, { fault: undefined, facts }, `as in ${one.fault} ${corner}`, asIn.circuit), asIn);
    }
  };
  const gathered = (corners: ExpectedValues['corners']): ExpectedValues => ({
    corners,
    of: cases.map(({ bench, fault }) => ({ bench, fault })),
    steps: Object.fromEntries([...found].map(([key, here]) => [key, stepExpected(here)])),
  });
  for (const one of cases) {
    look(one, 0);
    yield undefined;
  }
  yield gathered('usual');
  for (const one of cases) {
    for (let corner = 1; corner < one.corners.length; corner += 1) look(one, corner);
    yield undefined;
  }
  yield gathered('all');
}

function note(here: Map<Case, Seen>, one: Case, shown: Shown, asIn?: Seen['asIn']): void {
  const seen: Seen = here.get(one) ?? { readings: [], ways: [], untold: undefined, ...(asIn && { asIn }) };
  here.set(one, seen);
  if (!shown.reading) {
    seen.untold ??= shown.untold ?? 'not-read-here';
    return;
  }
  seen.readings.push(shown.reading);
  for (const way of shown.ons) if (!seen.ways.includes(way)) seen.ways.push(way);
}

function stepExpected(here: ReadonlyMap<BenchFault, Seen>): StepExpected {
  const readings: ExpectedReading[] = [];
  const untold: ExpectedUntold[] = [];
  for (const [{ bench, fault }, { readings: seen, ways, untold: why, asIn }] of here) {
    const [first] = seen;
    if (first) {
      const range = seen.flatMap(({ low, high }) => [low, high]);
      readings.push({
        bench,
        fault,
        shown: first.shown,
        value: first.reads,
        low: range.reduce(lesser),
        high: range.reduce(greater),
        ways,
        ...(asIn && { asIn: asIn.fault }),
      });
    } else if (why) untold.push({ bench, fault, why });
  }
  return { readings, untold };
}

// OL is more than any number.
const lesser = (a: MeterValue, b: MeterValue): MeterValue => (a === 'open' ? b : b === 'open' ? a : Math.min(a, b));
const greater = (a: MeterValue, b: MeterValue): MeterValue => (a === 'open' || b === 'open' ? 'open' : Math.max(a, b));
