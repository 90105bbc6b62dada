import {
  asFound,
  type Bench,
  fuseParts,
  isBlown,
  type MeterPlace,
  measure,
  type PreparedBench,
  prepare,
  type Situation,
  type Solution,
  type Solved,
  SolvedBench,
  signsOf,
  withBlownFuses,
  withJumper,
} from '../../bench/index.ts';
import type { FactPoint } from '../../formula/index.ts';
import { type CircuitState, circuitKey, untouched } from '../../walk/index.ts';
import { factSpread, type House } from './fact-spread.ts';
import { type Probe, probeKey } from './probe.ts';

// A phone keeps this many solved circuits of one bench before it starts again.
const KEPT_SOLUTIONS = 4_000;

/**
 * What probes show on a bench with these faults, in every house that the site could be. Numbers are SI; OL is Infinity, a sign seen is 1 and
 * not seen 0, and NaN is where the bench cannot tell. Everything is kept: asking again costs nothing.
 */
export class BenchShows {
  readonly prepared: PreparedBench;
  readonly houses: readonly House[];
  private readonly solutions: SolvedBench;
  private readonly base: Situation;
  private readonly rows = new Map<string, Float64Array>();
  private readonly columns = new Map<string, Map<string, number>>();
  private readonly situations = new Map<string, Situation>();
  private readonly fuses: readonly number[];
  private readonly withBlown = new WeakMap<Solved, Solution>();

  constructor(
    readonly bench: Bench,
    /** What is known of the site, SI. */
    known: FactPoint = {},
    houses?: readonly House[],
  ) {
    this.prepared = prepare(bench);
    this.houses = houses ?? factSpread(bench, known);
    this.solutions = new SolvedBench(this.prepared, KEPT_SOLUTIONS);
    this.base = asFound(bench);
    this.fuses = fuseParts(this.prepared);
  }

  /** What a probe shows with these faults and what the tech has done to the circuit, one number a house. */
  shows(probe: Probe, circuit: CircuitState, faults: readonly string[]): Float64Array {
    const key = `${probeKey(probe)}|${circuitKey({ ...circuit, dead: [], meterProved: false })}|${faults.join('+')}`;
    const kept = this.rows.get(key);
    if (kept) return kept;
    const row = Float64Array.from(this.houses, (_, house) => this.showsIn(probe, circuit, faults, house));
    this.rows.set(key, row);
    return row;
  }

  /** What a probe shows with each of several sets of faults, in the usual house. `keys` are the names of each set, joined by `+`. */
  usualColumn(probe: Probe, circuit: CircuitState, sets: readonly { readonly faults: readonly string[]; readonly key: string }[]): Float64Array {
    const key = `${probeKey(probe)}|${circuitKey({ ...circuit, dead: [], meterProved: false })}`;
    const known = this.columns.get(key) ?? new Map<string, number>();
    this.columns.set(key, known);
    return Float64Array.from(sets, ({ faults, key: names }) => {
      const kept = known.get(names);
      if (kept !== undefined) return kept;
      const value = this.showsIn(probe, circuit, faults);
      known.set(names, value);
      return value;
    });
  }

  /** As `shows`, in one house. */
  showsIn(probe: Probe, circuit: CircuitState, faults: readonly string[], house = 0): number {
    const solved = this.solved(circuit, faults, house);
    return solved ? shownBy(solved, probe) : Number.NaN;
  }

  /**
   * The solved circuit; undefined where it has no rest. A fuse that was blown as the tech found it stays blown, whatever is turned, lifted or jumpered
   * since.
   */
  solved(circuit: CircuitState, faults: readonly string[], house = 0): Solved | undefined {
    const fresh = this.fresh(circuit, faults, house);
    if (!fresh || this.fuses.length === 0) return fresh;
    const before = this.fresh(untouched(this.base.settings), faults, house);
    const blown = before && before !== fresh ? this.fuses.filter((part) => isBlown(before, part) && !isBlown(fresh, part)) : [];
    if (blown.length === 0) return fresh;
    const kept = this.withBlown.get(fresh);
    if (kept) return kept.ok ? kept : undefined;
    const solution = withBlownFuses(fresh, blown);
    this.withBlown.set(fresh, solution);
    return solution.ok ? solution : undefined;
  }

  /** As `solved`, from the state before power: as if nothing had happened before the circuit was put as it is. */
  fresh(circuit: CircuitState, faults: readonly string[], house = 0): Solved | undefined {
    const solution = this.solutions.solve({ ...this.situation(circuit), facts: { ...this.base.facts, ...this.houses[house]?.facts }, faults });
    return solution.ok ? solution : undefined;
  }

  /** What the tech did, as far as this bench has what was touched. */
  private situation(circuit: CircuitState): Situation {
    const key = circuitKey({ ...circuit, dead: [], meterProved: false });
    const kept = this.situations.get(key);
    if (kept) return kept;
    const { index } = this.prepared;
    const settings = Object.fromEntries(Object.entries(this.base.settings).map(([name, found]) => [name, circuit.settings[name] ?? found]));
    const lifted = circuit.lifted.filter((lead) => index.leads.some(({ name }) => name === lead)).sort();
    const known = circuit.jumpers.filter((ends) => ends.every((end) => index.nodeNumber.has(end)));
    const situation = known.reduce<Situation>((so, [a, b]) => withJumper(so, a, b), { ...this.base, settings, lifted });
    this.situations.set(key, situation);
    return situation;
  }
}

/** What a probe shows on one solved circuit. */
export function shownBy(solved: Solved, probe: Probe): number {
  if (probe.kind === 'look') {
    const seen = signsOf(solved)[probe.sign];
    return seen === undefined ? Number.NaN : seen ? 1 : 0;
  }
  const place: MeterPlace | undefined = probe.across ? { across: probe.across } : probe.at === undefined ? undefined : { at: probe.at };
  if (!place) return Number.NaN;
  const reading = measure(solved, probe.takes, place, probe.input ? { input: probe.input } : {});
  if (!reading.ok) return Number.NaN;
  return reading.value === 'open' ? Number.POSITIVE_INFINITY : reading.value;
}
