import type { PreparedBench } from '../../bench/index.ts';
import type { FactPoint } from '../../formula/index.ts';
import { type CircuitState, type CompiledEdition, circuitKey } from '../../walk/index.ts';
import type { Probe } from '../observe/probe.ts';
import { ExactSearch } from '../search/exact-search.ts';
import { InformationGain, partsOf, Rollout } from '../search/greedy-search.ts';
import { SuspectSets } from '../search/suspect-sets.ts';
import {
  type BenchBest,
  type BestMinutes,
  benchBest,
  bestOver,
  type MeasuredBench,
  MOST_SETS_BESIDE_A_PROOF,
  measuredBench,
  measuredBenches,
} from './best-minutes.ts';
import { isPreparing } from './is-preparing.ts';
import { type IsolationProblem, threeHouses, withCircuits } from './isolation-problem.ts';
import { asFoundCircuit } from './stances.ts';

/** One step of a walk: how the circuit stood when it came there, the way it went on (none at the end), and what the step takes. */
export type WalkedStep = { readonly key: string; readonly circuit: CircuitState; readonly on: string | undefined; readonly minutes: number };

/** How a tree walks one fault (or nothing wrong) of a bench in one house, from its first step to where it ends; empty where it does not. */
export type WalkOf = (bench: string, fault: string | undefined, house: FactPoint) => readonly WalkedStep[];

/** What one step costs a tree beside the best order there is. */
export type StepLoss = {
  readonly key: string;
  /**
   * Minutes lost there on a call, on average: what getting ready for the step, the step and the best order after it take, less the best order from where the
   * walk stood before. Below 0 where the tree stops early, or knows a shorter way than the search.
   */
  readonly lost: number;
  /** Minutes spent there on a call, on average, with the acts and dead readings that make ready for it. */
  readonly spent: number;
  /** The share of calls that come there, by fault weight. */
  readonly chance: number;
  /** What the best order would find out there instead, on the bench where most is lost; absent where it would find out nothing more, or the same. */
  readonly instead?: { readonly probe: Probe; readonly bench: string };
};

export type StepLosses = {
  readonly best: BestMinutes;
  /** Most lost first. They add up to the tree's minutes less the best, in the houses tried. */
  readonly steps: readonly StepLoss[];
  /** How the best order from each step was found. */
  readonly method: 'exact' | 'rollout';
};

export type StepLossOptions = {
  readonly most?: number;
  /** Hears of each bench that is done. */
  readonly progress?: (done: number, of: number) => void;
};

/**
 * Where a tree loses its minutes. At every step that a fault comes to, the tree's step is put beside the best that could be done with the same suspects left and
 * the circuit as it stands; benches counted alike, faults by weight, in the usual house and with all facts at their low and at their high ends.
 */
export function stepLosses(edition: CompiledEdition, walk: WalkOf, options: StepLossOptions = {}): StepLosses {
  const most = options.most ?? MOST_SETS_BESIDE_A_PROOF;
  const names = measuredBenches(edition);
  const byBench: Record<string, BenchBest> = {};
  const sums = new Map<string, Sum>();
  let method: StepLosses['method'] = 'exact';
  const preparing = (key: string): boolean => {
    const step = edition.steps.get(key)?.step;
    return step !== undefined && isPreparing(step);
  };
  for (const [done, name] of names.entries()) {
    options.progress?.(done, names.length);
    const measured = measuredBench(edition, name);
    if (!measured) continue;
    byBench[name] = benchBest(measured, most);
    const told = new TreeOnBench(measured, preparing, (fault, house) => walk(name, fault, house), most);
    if (told.walkAll(sums, name, 1 / names.length) === 'rollout') method = 'rollout';
  }
  options.progress?.(names.length, names.length);
  const steps = [...sums].map(([key, { lost, spent, chance, instead }]): StepLoss => {
    return { key, lost, spent, chance, ...(instead && { instead: { probe: instead.probe, bench: instead.bench } }) };
  });
  return { best: bestOver(byBench), steps: steps.sort((a, b) => b.lost - a.lost), method };
}

type Sum = { lost: number; spent: number; chance: number; instead?: { readonly probe: Probe; readonly bench: string; readonly lost: number } };

/** One bench of a tree: every fault's walk, laid over each other from the first step on. */
class TreeOnBench {
  private readonly of: IsolationProblem;
  private readonly walks: readonly (readonly WalkedStep[])[];
  private readonly sets: SuspectSets;
  private readonly exact: ExactSearch;
  private readonly rollout: Rollout;
  private readonly setUps: ReadonlyMap<string, number>;
  private isCut = false;

  constructor(
    private readonly measured: MeasuredBench,
    private readonly isPreparing: (key: string) => boolean,
    walk: (fault: string | undefined, house: FactPoint) => readonly WalkedStep[],
    most: number,
  ) {
    const { states, shows } = measured.problem;
    const houses = threeHouses(shows.bench);
    this.walks = states.map(({ fault, houses: own }) =>
      walk(fault, houses[own[0] ?? 0]?.facts ?? {}).map((step) => ({ ...step, circuit: circuitOn(shows.prepared, step.circuit) })),
    );
    this.of = withCircuits(
      measured.problem,
      this.walks.flatMap((steps) => steps.map(({ circuit }) => circuit)),
    );
    this.setUps = new Map(this.of.circuits.map((circuit, i) => [circuitKey(circuit), i]));
    this.sets = new SuspectSets(this.of.problem);
    this.rollout = new Rollout(this.sets, new InformationGain(this.sets));
    this.exact = new ExactSearch(this.sets, most, { rollout: this.rollout });
  }

  /** Adds what each step loses on this bench, times a share; says how the best was found. Either for all of it: exact and rollout minutes do not compare. */
  walkAll(into: Map<string, Sum>, bench: string, share: number): 'exact' | 'rollout' {
    const whole = this.of.problem.weights.reduce((sum, weight) => sum + weight, 0);
    if (!(whole > 0)) return 'exact';
    const states = [...this.walks.keys()].filter((state) => (this.walks[state]?.length ?? 0) > 0);
    for (const last of [false, true]) {
      const found: Visit[] = [];
      this.visit(states, 0, NOTHING_YET, found);
      if (this.isCut && !last) continue;
      for (const visit of found) add(into, visit, bench, share / whole);
      break;
    }
    return this.isCut ? 'rollout' : 'exact';
  }

  private visit(states: readonly number[], depth: number, ready: Ready, found: Visit[]): void {
    const [first] = states;
    const here = first === undefined ? undefined : this.walks[first]?.[depth];
    if (!here) return;
    const { weights } = this.of.problem;
    const weight = states.reduce((sum, state) => sum + (weights[state] ?? 0), 0);
    const set = this.setAt(states, depth);
    const ways = new Map<string, number[]>();
    for (const state of states) {
      const on = this.walks[state]?.[depth]?.on;
      if (on !== undefined) ways.set(on, [...(ways.get(on) ?? []), state]);
    }
    const after = [...ways.values()].reduce((sum, of) => sum + this.best(this.setAt(of, depth + 1)), 0);
    const before = depth === 0 ? this.bestAtStart(set) : this.best(set);
    const lost = ready.lost + here.minutes * weight + after - before;
    const spent = ready.spent + here.minutes * weight;
    // What makes ready is part of what it makes ready for, and the choice was made before it.
    const instead = ready.instead ?? this.of.tests[this.bestTest(set, depth)]?.probe;
    const isReadying = this.isPreparing(here.key) && ways.size === 1;
    if (!isReadying) found.push({ key: here.key, lost, spent, weight, ...(instead && { instead }) });
    for (const of of ways.values()) this.visit(of, depth + 1, isReadying ? { lost, spent, ...(instead && { instead }) } : NOTHING_YET, found);
  }

  /** What the best order takes on a set; -1 for nothing more, and where the tree begins as it does. */
  private bestTest(set: number, depth: number): number {
    if (depth === 0 && this.measured.from === 'complaint') return -1;
    return this.isCut ? this.rollout.test(set) : this.exact.test(set);
  }

  private setAt(states: readonly number[], depth: number): number {
    const [first = 0] = states;
    const walked = this.walks[first];
    const circuit = (walked?.[depth] ?? walked?.at(-1))?.circuit;
    return this.sets.of(states, (circuit && this.setUps.get(circuitKey(circuit))) ?? 0);
  }

  private best(set: number): number {
    const exact = this.isCut ? undefined : this.exact.minutes(set);
    if (exact === undefined) this.isCut = true;
    return exact ?? this.rollout.minutes(set);
  }

  /** A tree that begins by seeing the complaint is put beside the best that does. */
  private bestAtStart(set: number): number {
    const { problem, complaint } = this.of;
    if (this.measured.from !== 'complaint' || complaint < 0) return this.best(set);
    const own = (problem.minutes[complaint * problem.setUps] ?? 0) * this.sets.weight(set);
    return partsOf(this.sets, set, complaint).reduce((sum, part) => sum + this.best(part), own);
  }
}

/** What has gone into making ready since the last reading or look. */
type Ready = { readonly lost: number; readonly spent: number; readonly instead?: Probe };

const NOTHING_YET: Ready = { lost: 0, spent: 0 };

type Visit = { readonly key: string; readonly lost: number; readonly spent: number; readonly weight: number; readonly instead?: Probe };

function add(into: Map<string, Sum>, { key, lost, spent, weight, instead }: Visit, bench: string, share: number): void {
  const sum = into.get(key) ?? { lost: 0, spent: 0, chance: 0 };
  sum.lost += lost * share;
  sum.spent += spent * share;
  sum.chance += weight * share;
  if (instead && lost * share > (sum.instead?.lost ?? 1e-6)) sum.instead = { probe: instead, bench, lost: lost * share };
  into.set(key, sum);
}

/** A tree's circuit as far as one bench has it; the other wirings' settings and points are of no account there. */
function circuitOn(prepared: PreparedBench, circuit: CircuitState): CircuitState {
  const { settings } = asFoundCircuit(prepared);
  const { index } = prepared;
  const isKnown = (point: string): boolean => index.nodeNumber.has(point) || index.leads.some(({ name }) => name === point);
  return {
    settings: Object.fromEntries(Object.entries(settings).map(([setting, found]) => [setting, circuit.settings[setting] ?? found])),
    jumpers: circuit.jumpers.filter((ends) => ends.every(isKnown)),
    lifted: circuit.lifted.filter(isKnown),
    meterProved: circuit.meterProved,
    dead: circuit.dead.filter(({ points }) => points.every(isKnown)),
  };
}
