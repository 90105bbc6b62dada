import {
  asFound,
  type MeterReading,
  type MeterRefusal,
  measure,
  type PreparedBench,
  type Situation,
  type Solved,
  SolvedBench,
  signsOf,
  withJumper,
} from '../bench/index.ts';
import type { FactPoint } from '../formula/index.ts';
import { countSize, quantityKind, toSi, unitOf } from '../quantity/index.ts';
import { isChoice, type ReadingStep } from '../tree/index.ts';
import { type CircuitState, type CompiledEdition, type CompiledStep, circuitKey, factValue, type Gauge, judgeValue } from '../walk/index.ts';

/** One case of the proof: a bench with one fault (or none) in one house. */
export type BenchCase = { readonly fault: string | undefined; readonly facts: FactPoint };

/** What a step can show in a case: the ways on that the reading's accuracy reaches, or every way where the bench cannot tell. */
export type Shown = {
  readonly ons: readonly string[];
  /** What the meter shows, where the step is a reading the bench has. */
  readonly reading?: MeterReading;
  /** Why the bench cannot tell; then every way is followed. */
  readonly untold?: 'no-sign' | 'not-read-here' | 'circuit-live' | 'not-solved' | 'no-band';
};

/**
 * A bench as a tree walks it: the circuit in any state that the tech can put it in, read with a simulated meter and judged by
 * the tree's own bands. Solutions are kept by case and circuit.
 */
export class BenchWalk {
  private readonly bench: SolvedBench;
  private readonly base: Situation;
  private readonly shownBy = new Map<string, Shown>();
  private caseKey = '';

  constructor(
    private readonly edition: CompiledEdition,
    readonly name: string,
    private readonly prepared: PreparedBench,
  ) {
    this.bench = new SolvedBench(prepared);
    this.base = asFound(prepared.bench);
  }

  /** The solved circuit of a case with what the tech has done to it. */
  solved(at: BenchCase, circuit: CircuitState): Solved | undefined {
    const { index } = this.prepared;
    const settings = Object.fromEntries(Object.entries(this.base.settings).map(([name, found]) => [name, circuit.settings[name] ?? found]));
    const lifted = circuit.lifted.filter((lead) => index.leads.some(({ name }) => name === lead)).sort();
    const start: Situation = {
      settings,
      lifted,
      jumpers: [],
      facts: { ...this.base.facts, ...at.facts },
      faults: at.fault === undefined ? [] : [at.fault],
    };
    const known = circuit.jumpers.filter((ends) => ends.every((end) => index.nodeNumber.has(end)));
    const solution = this.bench.solve(known.reduce((situation, [a, b]) => withJumper(situation, a, b), start));
    return solution.ok ? solution : undefined;
  }

  /** The ways that a step takes in a case. */
  shown(step: CompiledStep, at: BenchCase, caseKey: string, circuit: CircuitState): Shown {
    if (caseKey !== this.caseKey) {
      this.shownBy.clear();
      this.caseKey = caseKey;
    }
    const key = `${step.key} ${circuitKey(circuit)}`;
    const kept = this.shownBy.get(key);
    if (kept) return kept;
    const shown = this.show(step, at, circuit);
    this.shownBy.set(key, shown);
    return shown;
  }

  private show(step: CompiledStep, at: BenchCase, circuit: CircuitState): Shown {
    const ons = [...step.leadsTo.keys()];
    switch (step.step.kind) {
      case 'act':
        return { ons: ['done'] };
      case 'look':
        return this.look(step.step.sign, ons, at, circuit);
      case 'ask':
        return this.told(step, step.step.fact, ons, at);
      case 'reading':
        return this.read(step, step.step, ons, at, circuit);
      default:
        return { ons: [] };
    }
  }

  /** The first label of a look is the sign seen; the others are that it is not. */
  private look(sign: string | undefined, ons: readonly string[], at: BenchCase, circuit: CircuitState): Shown {
    const solved = this.solved(at, circuit);
    if (!solved) return { ons, untold: 'not-solved' };
    const seen = sign === undefined ? undefined : signsOf(solved)[sign];
    if (seen === undefined) return { ons, untold: 'no-sign' };
    return { ons: seen ? ons.slice(0, 1) : ons.slice(1) };
  }

  private told(step: CompiledStep, fact: string, ons: readonly string[], at: BenchCase): Shown {
    if (ons.includes('known')) return { ons: ['known'] };
    const spec = this.edition.facts.get(fact)?.spec;
    if (spec && isChoice(spec)) return { ons: fact === this.edition.wiring && ons.includes(this.name) ? [this.name] : ons };
    const value = this.fact(at)(fact);
    return step.gauge && value !== undefined ? this.judged(step.gauge, value, 0, ons) : { ons };
  }

  private read(step: CompiledStep, reading: ReadingStep, ons: readonly string[], at: BenchCase, circuit: CircuitState): Shown {
    const solved = this.solved(at, circuit);
    if (!solved || !step.gauge) return { ons, untold: 'not-solved' };
    const measured = readingOn(solved, reading, step.gauge);
    if (measured === undefined) return { ons, untold: 'not-read-here' };
    if (!measured.ok)
      return { ons, untold: measured.code === 'circuit-live' ? 'circuit-live' : measured.code === 'not-solved' ? 'not-solved' : 'not-read-here' };
    const { value } = measured;
    const shown =
      value === 'open' ? this.judged(step.gauge, value, 0, ons, at) : this.judged(step.gauge, value, resolutionOf(step.gauge, value), ons, at);
    return { ...shown, reading: measured };
  }

  private judged(gauge: Gauge, si: number | 'open', resolution: number, ons: readonly string[], at?: BenchCase): Shown {
    const judged = judgeValue(gauge, { typed: '', si, unit: '', resolution }, this.fact(at));
    return judged.ok ? { ons: [judged.value.on, ...judged.value.reaches] } : { ons, untold: 'no-band' };
  }

  /** The tech's facts are those of the house: they are asked before the walk begins. */
  fact(at: BenchCase | undefined): (name: string) => number | undefined {
    return (name) => at?.facts[name] ?? factValue(this.edition.facts, {}, name);
  }
}

/** What the simulated meter shows on a reading step; undefined where the step names no place that the bench has. */
export function readingOn(solved: Solved, reading: ReadingStep, gauge: Gauge): MeterReading | MeterRefusal | undefined {
  const place = reading.across ? { across: reading.across } : reading.at === undefined ? undefined : { at: reading.at };
  if (!place) return undefined;
  return measure(solved, reading.takes, place, { accuracy: gauge.meter, ...(reading.input && { input: reading.input }) });
}

/** SI size of one count where the meter shows this value. */
export function resolutionOf(gauge: Gauge, si: number): number {
  const unit = unitOf(gauge.step.unit ?? quantityKind(gauge.step.takes).unit);
  if (!unit || unit.offset === 0) return countSize(gauge.meter, si);
  return countSize(gauge.meter, (si - unit.offset) / unit.factor) * unit.factor || toSi(0.1, unit) - toSi(0, unit);
}
