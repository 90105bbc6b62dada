import type { Bench } from '../../bench/index.ts';
import { type MeterAccuracy, USUAL_METER } from '../../quantity/index.ts';
import { type CircuitState, circuitKey, SafetyModel } from '../../walk/index.ts';
import { BenchShows, shownBy } from '../observe/bench-shows.ts';
import type { House } from '../observe/fact-spread.ts';
import { type Probe, probeKey } from '../observe/probe.ts';
import type { TestProblem } from '../search/test-problem.ts';
import { CommonPoints } from './common-points.ts';
import { type IsolationTest, undominated } from './isolation-test.ts';
import { outcomesOf } from './outcome-bands.ts';
import { screenTests } from './screen-tests.ts';
import { soundVolts, steadyValue } from './screened-probes.ts';
import { type SetUpPlan, SetUpPlanner } from './set-up-plan.ts';
import { asFoundCircuit, circuitOf } from './stances.ts';
import { type MinutesModel, usualMinutes } from './usual-minutes.ts';

/** One way that a fault shows itself; a fault that the site's facts make show differently has several. State 0 is nothing wrong. */
export type FaultState = { readonly fault: string | undefined; readonly houses: readonly number[] };

/** A bench as a problem of telling its faults apart, with what the numbers of the problem mean. */
export type IsolationProblem = {
  readonly shows: BenchShows;
  readonly points: CommonPoints;
  readonly safety: SafetyModel;
  readonly minutes: MinutesModel;
  readonly meter: MeterAccuracy;
  readonly states: readonly FaultState[];
  readonly tests: readonly IsolationTest[];
  /** How the circuit can stand between tests; the first is as found. */
  readonly circuits: readonly CircuitState[];
  /** What comes before a test, by test and circuit: [test * circuits.length + circuit]. */
  readonly plans: readonly (SetUpPlan | undefined)[];
  readonly problem: TestProblem;
  /** The test that shows the complaint; -1 where none does. */
  readonly complaint: number;
};

export type IsolationOptions = {
  readonly meter?: MeterAccuracy;
  readonly minutes?: MinutesModel;
  /** Houses that every claim must hold in; the usual one and both ends of the facts where absent. */
  readonly houses?: readonly House[];
  readonly safety?: SafetyModel;
  /** Bands are plain numbers, so that what is read off at a place and hangs on the house's facts could be anything between what it is in these houses. */
  readonly plainBands?: boolean;
};

// More ways for the circuit to stand than any tree uses; past it the rest are left out.
const MOST_CIRCUITS = 150;

/**
 * Gathers everything that a tech could find out on a bench: every look, volts between every two terminals, amps and pressures where they can be got at, as found
 * and with one setting changed or one contact bridged; ohms on what can be cut off and proved dead, leads lifted or not. What tells nothing, what
 * something cheaper tells too and what safety forbids is left out.
 */
export function isolationProblem(bench: Bench, options: IsolationOptions = {}): IsolationProblem {
  const meter = options.meter ?? USUAL_METER;
  const shows = new BenchShows(bench, {}, options.houses ?? threeHouses(bench));
  const { prepared } = shows;
  const points = new CommonPoints(prepared);
  const minutes = options.minutes ?? usualMinutes(prepared);
  const safety = options.safety ?? new SafetyModel(bench);
  const planner = new SetUpPlanner([safety], prepared, points, minutes);
  const found = asFoundCircuit(prepared);
  const faults: readonly (readonly string[])[] = [[], ...Object.keys(bench.faults).map((fault) => [fault])];

  const screened = screenTests(shows, points, minutes, meter, faults, (stance, probe) => planner.plan(found, stance, probe)?.minutes);
  const tested = screened.candidates.flatMap(({ probe, stance }): readonly IsolationTest[] => {
    const circuit = circuitOf(stance ?? found);
    const outcomes = outcomesOf(
      probe,
      faults.map((names) => steadyRow(shows, probe, circuit, names)),
      meter,
      options.plainBands === true && probe.kind === 'reading' && probe.at !== undefined,
    );
    return outcomes && outcomes.outcomes.length > 1 ? [{ probe, stance, minutes: minutes.probe(probe), outcomes }] : [];
  });
  const states = statesOf(faults, tested, shows.houses.length);
  const rowOf = ({ outcomes }: IsolationTest): Uint8Array =>
    Uint8Array.from(states, ({ houses }, state) => outcomes.of[faultIndex(states, state, faults)]?.[houses[0] ?? 0] ?? 0);
  const shownFirst = screened.complaint && probeKey(screened.complaint);
  const isComplaint = ({ probe, stance }: IsolationTest): boolean =>
    probeKey(probe) === shownFirst && (!stance || circuitKey(circuitOf(stance)) === circuitKey(found));
  const tests = byStance(tested).flatMap((group) => {
    const kept = undominated(group.map((test) => ({ test, row: rowOf(test), minutes: test.minutes })));
    return group.filter((test) => isComplaint(test) || kept.some((other) => other.test === test));
  });
  const { circuits, plans, ...setUpNumbers } = setUpTable([found], tests, planner);
  return {
    shows,
    points,
    safety,
    minutes,
    meter,
    states,
    tests,
    circuits,
    plans,
    problem: {
      weights: Float64Array.from(states, ({ fault, houses }) => (bench.faults[fault ?? '']?.weight ?? 0) * shareOf(shows.houses, houses)),
      groups: Int32Array.from(states, ({ fault }) => (fault === undefined ? 0 : 1 + Object.keys(bench.faults).indexOf(fault))),
      outcomes: tests.map(rowOf),
      ...setUpNumbers,
    },
    complaint: tests.findIndex(isComplaint),
  };
}

/** The same problem, with ways for the circuit to stand that are met on other roads than its own; they come right after the first. */
export function withCircuits(of: IsolationProblem, extra: readonly CircuitState[]): IsolationProblem {
  const { safety, shows, points, minutes, tests } = of;
  const found = asFoundCircuit(shows.prepared);
  const planner = new SetUpPlanner([safety], shows.prepared, points, minutes);
  const { circuits, plans, ...setUpNumbers } = setUpTable([found, ...extra], tests, planner);
  return { ...of, circuits, plans, problem: { ...of.problem, ...setUpNumbers } };
}

/** What a probe shows in every house; NaN where it hangs on what was on before, or on the meter itself. */
function steadyRow(shows: BenchShows, probe: Probe, circuit: CircuitState, names: readonly string[]): Float64Array {
  const row = shows.shows(probe, circuit, names);
  const volts = probe.kind === 'reading' && probe.takes === 'ac-voltage' && probe.across ? { ...probe, across: probe.across } : undefined;
  const { input, ...plain } = volts ?? {};
  const other =
    volts && shows.shows(input === 'low' ? { ...plain, kind: 'reading', takes: 'ac-voltage' } : { ...volts, input: 'low' }, circuit, names);
  return row.map((value, house) => {
    const [solved, fresh] = [shows.solved(circuit, names, house), shows.fresh(circuit, names, house)];
    const steady = solved === fresh ? value : fresh ? steadyValue(value, shownBy(fresh, probe)) : Number.NaN;
    return other ? soundVolts(steady, other[house] ?? Number.NaN, input) : steady;
  });
}

const shareOf = (houses: readonly House[], of: readonly number[]): number => of.reduce((sum, house) => sum + (houses[house]?.share ?? 0), 0);

/** The usual house, and all facts at their low and at their high ends, counted alike. */
export function threeHouses(bench: Bench): readonly House[] {
  const shows = new BenchShows(bench);
  const all = shows.houses.map(({ facts }) => facts);
  const facts = [...new Set([all[0], all.at(-2), all.at(-1)].map((point) => JSON.stringify(point ?? {})))].map(
    (text) => JSON.parse(text) as House['facts'],
  );
  return facts.map((point) => ({ facts: point, share: 1 / facts.length }));
}

function byStance(tests: readonly IsolationTest[]): readonly (readonly IsolationTest[])[] {
  const groups = new Map<string, IsolationTest[]>();
  for (const test of tests) {
    const key = test.stance ? circuitKey(circuitOf(test.stance)) : 'any';
    groups.set(key, [...(groups.get(key) ?? []), test]);
  }
  return [...groups.values()];
}

/** Every fault once for each way that it shows itself over the houses; nothing wrong first. */
function statesOf(faults: readonly (readonly string[])[], tests: readonly IsolationTest[], houses: number): readonly FaultState[] {
  return faults.flatMap(([fault], index): readonly FaultState[] => {
    const ways = new Map<string, number[]>();
    for (let house = 0; house < houses; house += 1) {
      const signature = tests.map(({ outcomes }) => outcomes.of[index]?.[house]).join(' ');
      ways.set(signature, [...(ways.get(signature) ?? []), house]);
    }
    return [...ways.values()].map((of) => ({ fault, houses: of }));
  });
}

function faultIndex(states: readonly FaultState[], state: number, faults: readonly (readonly string[])[]): number {
  const fault = states[state]?.fault;
  return faults.findIndex(([name]) => name === fault);
}

/** What counts as the circuit after a test. Older proofs that points are dead are let go, so that circuits stay few; reading them again is never wrong. */
function afterwards({ moves, circuit }: SetUpPlan): CircuitState {
  const read = moves.filter((move) => move.kind === 'dead').length;
  return read === 0 ? circuit : { ...circuit, dead: circuit.dead.slice(-read) };
}

type SetUpTable = Pick<IsolationProblem, 'circuits' | 'plans'> & Pick<TestProblem, 'setUps' | 'minutes' | 'after'>;

/** Every way for the circuit to stand that tests lead to from these, and what each test takes from each. */
function setUpTable(from: readonly CircuitState[], tests: readonly IsolationTest[], planner: SetUpPlanner): SetUpTable {
  const known = new Map<string, number>();
  const circuits: CircuitState[] = [];
  const add = (circuit: CircuitState): void => {
    const key = circuitKey(circuit);
    if (known.has(key)) return;
    known.set(key, circuits.length);
    circuits.push(circuit);
  };
  from.forEach(add);
  const most = MOST_CIRCUITS + circuits.length - 1;
  const rows: (SetUpPlan | undefined)[][] = tests.map(() => []);
  for (let at = 0; at < circuits.length; at += 1) {
    const circuit = circuits[at];
    if (!circuit) break;
    for (const [test, { probe, stance }] of tests.entries()) {
      const plan: SetUpPlan | undefined = stance ? planner.plan(circuit, stance, probe) : { moves: [], circuit, minutes: 0 };
      const isFull = plan !== undefined && circuits.length >= most && !known.has(circuitKey(afterwards(plan)));
      rows[test]?.push(isFull ? undefined : plan);
      if (plan && !isFull) add(afterwards(plan));
    }
  }
  const plans = rows.flat();
  return {
    circuits,
    plans,
    setUps: circuits.length,
    minutes: Float64Array.from(plans, (plan, cell) =>
      plan ? plan.minutes + (tests[Math.floor(cell / circuits.length)]?.minutes ?? 0) : Number.POSITIVE_INFINITY,
    ),
    after: Int32Array.from(plans, (plan) => (plan ? (known.get(circuitKey(afterwards(plan))) ?? 0) : 0)),
  };
}
