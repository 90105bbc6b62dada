import type { MeterAccuracy } from '../../quantity/index.ts';
import { USUAL_METER } from '../../quantity/index.ts';
import type { Action } from '../../tree/index.ts';
import { type CircuitState, circuitKey } from '../../walk/index.ts';
import { CommonPoints } from '../isolate/common-points.ts';
import { newlyTold } from '../isolate/isolation-test.ts';
import { type Outcomes, outcomesOf } from '../isolate/outcome-bands.ts';
import { type SetUpPlan, SetUpPlanner } from '../isolate/set-up-plan.ts';
import { circuitOf } from '../isolate/stances.ts';
import type { MinutesModel } from '../isolate/usual-minutes.ts';
import type { BenchShows } from '../observe/bench-shows.ts';
import { probeKey } from '../observe/probe.ts';
import type { Diagnosis } from '../posterior/suspects.ts';
import { ExactSearch } from '../search/exact-search.ts';
import { InformationGain, Rollout } from '../search/greedy-search.ts';
import { SuspectSets } from '../search/suspect-sets.ts';
import type { TestProblem } from '../search/test-problem.ts';
import { type Jump, type JumpFrom, jumpFor } from './jump-for.ts';
import { faultsKey, type PlausibleState, plausibleStates } from './plausible.ts';
import { type Leaves, outcomeWords, reasonWords } from './reason-words.ts';
import type { WalkCandidate } from './walk-candidates.ts';

/** Something to find out next, with what it takes and what it would leave. */
export type NextReading = {
  readonly candidate: WalkCandidate;
  /** Where a walk goes for it, where one of its edition's steps takes it as the circuit then stands. */
  readonly jump: Jump | undefined;
  /** What has to be done first, in order: acts, and readings that must show points dead. */
  readonly setUp: readonly (Action | { readonly do: 'prove-dead'; readonly across: readonly [string, string] })[];
  /** Of set-up and reading together. */
  readonly minutes: number;
  /** Expected minutes from now to the finding if this comes next. */
  readonly expected: number;
  /** Bits that it tells. */
  readonly gain: number;
  readonly shows: readonly (Leaves & { readonly reading: string; readonly low: number; readonly high: number })[];
  readonly reason: string;
};

export type NextReadings = {
  /** Best first. */
  readonly readings: readonly NextReading[];
  /** Faults that are left and that no candidate tells apart any more; then it is time for the finding. Empty while there is something to find out. */
  readonly left: readonly string[];
  /** How the expected minutes were found; for all but the best few always by rollout. */
  readonly method: 'exact' | 'rollout';
  readonly states: readonly PlausibleState[];
};

export type NextOptions = {
  readonly meter?: MeterAccuracy;
  /** Sets that the exact search may open: a phone has no time for many. */
  readonly most?: number;
  /** How many to give. */
  readonly give?: number;
};

/** Where a walk stands, what it could find out, and what things take. */
export type Standing = {
  readonly from: JumpFrom;
  readonly candidates: readonly WalkCandidate[];
  readonly minutes: MinutesModel;
};

/** What a phone can search while a tech looks up. */
const MOST_SETS_NOW = 500;
const GIVE = 8;
const MOST_CIRCUITS = 40;
// The exact search is asked about this many of those that the rollout puts first.
const ASKED = 3;

/** Ranks candidates by expected minutes still to go, for what a diagnosis leaves and how the circuit stands now. Only what safety allows is in it. */
export function nextReadings(diagnosis: Diagnosis, { from, candidates, minutes }: Standing, options: NextOptions = {}): NextReadings {
  const { circuit: now, safety } = from;
  const states = plausibleStates(diagnosis);
  const groups = [...new Set(states.map(faultsKey))];
  const [bench] = diagnosis.benches.values();
  if (groups.length < 2 || !bench) return { readings: [], left: groups, method: 'exact', states };
  const planner = new SetUpPlanner(safety, bench.prepared, new CommonPoints(bench.prepared), minutes);
  const benchStates = byBench(states, diagnosis);
  const tests = worthAsking(
    candidates.flatMap((candidate) => testOf(candidate, benchStates, now, options.meter ?? USUAL_METER) ?? []),
    now,
    planner,
  );
  const { problem, circuits, plans } = problemOf(tests, states, groups, now, planner);
  const sets = new SuspectSets(problem);
  const all = sets.whole();
  const weight = sets.weight(all);
  const rollout = new Rollout(sets, new InformationGain(sets));
  const exact = new ExactSearch(sets, options.most ?? MOST_SETS_NOW, { rollout });
  const ranked = tests
    .flatMap((test, i) => {
      const through = rollout.through(all, i);
      const plan = plans[i * circuits.length];
      return through === undefined || !plan ? [] : [{ test, i, plan, expected: through / weight }];
    })
    .sort((a, b) => a.expected - b.expected || a.i - b.i);
  const best = exact.minutes(all);
  const asked = best === undefined ? [] : [exact.test(all), ...ranked.slice(0, ASKED).map(({ i }) => i)];
  const settled = ranked.map((one) => {
    const through = asked.includes(one.i) ? exact.after(all, one.i) : undefined;
    return through === undefined ? one : { ...one, expected: through / weight };
  });
  const jumpOf = ({ reached, stance }: WalkCandidate): Jump | undefined => reached && jumpFor(reached, stance, from);
  const readings = settled
    .sort((a, b) => a.expected - b.expected || a.i - b.i)
    .slice(0, options.give ?? GIVE)
    .map(({ test, i, plan, expected }) => ({ ...readingOf(test, i, plan, expected, sets, all, states), jump: jumpOf(test.candidate) }));
  return { readings, left: readings.length === 0 ? groups : [], method: best === undefined ? 'rollout' : 'exact', states };
}

type Test = { readonly candidate: WalkCandidate; readonly row: Uint8Array; readonly outcomes: Outcomes };

/** States by their bench, with their places among all. */
type BenchStates = {
  readonly shows: BenchShows;
  readonly sets: readonly { readonly faults: readonly string[]; readonly key: string; readonly at: number }[];
};

function byBench(states: readonly PlausibleState[], { benches }: Diagnosis): readonly BenchStates[] {
  return [...benches].map(([name, shows]) => ({
    shows,
    sets: states.flatMap((state, at) => (state.bench === name ? [{ faults: state.faults, key: faultsKey(state), at }] : [])),
  }));
}

/** What a candidate shows in each state, told apart by the meter; undefined where it tells nothing, or some bench cannot say. */
function testOf(candidate: WalkCandidate, of: readonly BenchStates[], now: CircuitState, meter: MeterAccuracy): Test | undefined {
  const { probe, stance } = candidate;
  const circuit = circuitOf(stance ?? now);
  const values: number[] = [];
  for (const { shows, sets } of of) {
    const column = shows.usualColumn(probe, circuit, sets);
    for (const [i, { at }] of sets.entries()) values[at] = column[i] ?? Number.NaN;
  }
  const outcomes = outcomesOf(
    probe,
    values.map((value) => Float64Array.of(value)),
    meter,
  );
  return outcomes && outcomes.outcomes.length > 1 ? { candidate, outcomes, row: Uint8Array.from(outcomes.of, (of) => of[0] ?? 0) } : undefined;
}

/** Leaves out what needs set-up beyond turning things and tells nothing that a simpler reading does not tell in the same minutes, each with its set-up from now. */
function worthAsking(tests: readonly Test[], now: CircuitState, planner: SetUpPlanner): readonly Test[] {
  const minutesFromNow = ({ candidate: { probe, stance, minutes } }: Test): number | undefined => {
    const plan = stance ? planner.plan(now, stance, probe) : undefined;
    if (stance && !plan) return undefined;
    return minutes + (plan?.minutes ?? 0);
  };
  const simple = tests
    .filter(({ candidate: { probe, stance } }) => !isIntrusive(probe, stance, now))
    .flatMap((test) => {
      const minutes = minutesFromNow(test);
      return minutes === undefined ? [] : [{ row: test.row, minutes }];
    });
  const kept = new Map<string, Test>();
  for (const test of tests) {
    const { probe, stance, minutes } = test.candidate;
    const key = `${probeKey(probe)} ${stance ? circuitKey(circuitOf(stance)) : ''}`;
    if (kept.has(key)) continue;
    if (!isIntrusive(probe, stance, now)) kept.set(key, test);
    else if (newlyTold(simple, test.row, minutes).size > 0) {
      const whole = minutesFromNow(test);
      if (whole !== undefined && newlyTold(simple, test.row, whole).size > 0) kept.set(key, test);
    }
  }
  return [...kept.values()];
}

/** Whether a probe needs points proved dead, a lead lifted or a jumper placed. */
function isIntrusive(probe: WalkCandidate['probe'], stance: WalkCandidate['stance'], now: CircuitState): boolean {
  if (probe.kind === 'reading' && (probe.takes === 'resistance' || probe.takes === 'continuity' || probe.takes === 'capacitance')) return true;
  return stance !== undefined && (stance.lifted.some((lead) => !now.lifted.includes(lead)) || stance.jumpers.length > now.jumpers.length);
}

function problemOf(
  tests: readonly Test[],
  states: readonly PlausibleState[],
  groups: readonly string[],
  now: CircuitState,
  planner: SetUpPlanner,
): { readonly problem: TestProblem; readonly circuits: readonly CircuitState[]; readonly plans: readonly (SetUpPlan | undefined)[] } {
  const circuits: CircuitState[] = [now];
  const known = new Map([[circuitKey(now), 0]]);
  const rows: (SetUpPlan | undefined)[][] = tests.map(() => []);
  for (let at = 0; at < circuits.length; at += 1) {
    const from = circuits[at];
    if (!from) break;
    for (const [i, { candidate }] of tests.entries()) {
      const { probe, stance } = candidate;
      const plan: SetUpPlan | undefined = stance ? planner.plan(from, stance, probe) : { moves: [], circuit: from, minutes: 0 };
      const key = plan && circuitKey(plan.circuit);
      const isFull = key !== undefined && !known.has(key) && circuits.length >= MOST_CIRCUITS;
      rows[i]?.push(isFull ? undefined : plan);
      if (!plan || key === undefined || known.has(key) || isFull) continue;
      known.set(key, circuits.length);
      circuits.push(plan.circuit);
    }
  }
  const plans = rows.flat();
  return {
    circuits,
    plans,
    problem: {
      weights: Float64Array.from(states, ({ probability }) => probability),
      groups: Int32Array.from(states, (state) => groups.indexOf(faultsKey(state))),
      outcomes: tests.map(({ row }) => row),
      setUps: circuits.length,
      minutes: Float64Array.from(plans, (plan, cell) =>
        plan ? plan.minutes + (tests[Math.floor(cell / circuits.length)]?.candidate.minutes ?? 0) : Number.POSITIVE_INFINITY,
      ),
      after: Int32Array.from(plans, (plan) => (plan ? (known.get(circuitKey(plan.circuit)) ?? 0) : 0)),
    },
  };
}

function readingOf(
  { candidate, outcomes }: Test,
  test: number,
  plan: SetUpPlan,
  expected: number,
  sets: SuspectSets,
  all: number,
  states: readonly PlausibleState[],
): Omit<NextReading, 'jump'> {
  const weight = sets.weight(all);
  const count = sets.split(all, test);
  let after = 0;
  const shows: NextReading['shows'][number][] = [];
  for (let i = 0; i < count; i += 1) {
    after += sets.partEntropy(i);
    const outcome = outcomes.outcomes[sets.partOutcome(i)];
    const members = new Int32Array(sets.states);
    const size = sets.partStates(i, members);
    // States come likeliest first, so that the faults of a part do too.
    const faults = [...new Set([...members.subarray(0, size)].map((state) => faultsKey(states[state] ?? { bench: '', faults: [], probability: 0 })))];
    if (outcome)
      shows.push({
        faults,
        probability: sets.partWeight(i) / weight,
        reading: outcomeWords(candidate.probe, outcome),
        low: outcome.low,
        high: outcome.high,
      });
  }
  return {
    candidate,
    setUp: plan.moves.map((move) => (move.kind === 'act' ? move.action : { do: 'prove-dead', across: move.across })),
    minutes: plan.minutes + candidate.minutes,
    expected,
    gain: (sets.entropy(all) - after) / weight,
    shows,
    reason: reasonWords(shows),
  };
}
