/**
 * Faults to be told apart by tests, as numbers: what every search of this folder works on. A state is a fault (or one way that a
 * fault shows itself); states of one group need not be told apart. A set-up is how the circuit stands: power on, power off and
 * proved dead, a jumper on.
 */
export type TestProblem = {
  /** How often each state is met, against the others; 0 for a state that must be told apart and counts for nothing. */
  readonly weights: Float64Array;
  /** The group of each state. */
  readonly groups: Int32Array;
  /** What each test shows in each state: outcomes[test][state], counted from 0. */
  readonly outcomes: readonly Uint8Array[];
  readonly setUps: number;
  /** Minutes of test t from set-up u, setting up included, at [t * setUps + u]; Infinity where it must not be done. */
  readonly minutes: Float64Array;
  /** The set-up that the test leaves, at the same place. */
  readonly after: Int32Array;
};

/** The most outcomes that any test has: the arity of the best tree there could be. At least 2. */
export function mostOutcomes({ outcomes }: TestProblem): number {
  let most = 2;
  for (const row of outcomes) for (const outcome of row) most = Math.max(most, outcome + 1);
  return most;
}

/** The least minutes that each test can take, cheapest first. */
export function cheapestMinutes({ outcomes, minutes, setUps }: TestProblem): Float64Array {
  const least = Float64Array.from(outcomes, (_, test) => Math.min(...minutes.subarray(test * setUps, (test + 1) * setUps)));
  return least.filter(Number.isFinite).sort();
}

/** Minutes of the cheapest tests on a path of a mean length: whole tests, and a share of the next. Convex, so it bounds the mean of paths. */
export function minutesOfLength(cheapest: Float64Array, length: number): number {
  let minutes = 0;
  for (let i = 0; i < cheapest.length && i < length; i += 1) minutes += (cheapest[i] ?? 0) * Math.min(1, length - i);
  return minutes;
}

/**
 * Which groups can be told apart at all: states that every test shows alike are twins, and groups that share twins are one. `groups` and `twins` give
 * each state its number in either.
 */
export function tellableGroups({ groups, outcomes, minutes, setUps }: TestProblem): { readonly groups: Int32Array; readonly twins: Int32Array } {
  const usable = outcomes.filter((_, test) => minutes.subarray(test * setUps, (test + 1) * setUps).some(Number.isFinite));
  const leader = new Map<number, number>();
  const find = (group: number): number => {
    const up = leader.get(group) ?? group;
    return up === group ? group : find(up);
  };
  const firstWith = new Map<string, number>();
  const twins = Int32Array.from(groups, (group, state) => {
    const signature = usable.map((row) => row[state]).join(' ');
    const twin = firstWith.get(signature) ?? state;
    firstWith.set(signature, twin);
    leader.set(find(group), find(groups[twin] ?? group));
    return twin;
  });
  return { groups: groups.map(find), twins };
}
