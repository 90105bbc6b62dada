import type { TestProblem } from './search/test-problem.ts';

/** Ways that the circuit can stand for tests, and what it takes to go from one to another. */
export type MatrixSetUps = {
  /** The first is how it stands at the start. */
  readonly names: readonly string[];
  /** Minutes from one to another, row by row: [from * names.length + to]. */
  readonly minutes: Float64Array;
  /** The set-up that each test wants; -1 where any will do. */
  readonly wants: Int32Array;
};

/** States against tests: what each test shows in each state, what a test costs, how likely a state is. */
export type TestMatrix = {
  readonly states: readonly string[];
  /** Sum 1. */
  readonly priors: Float64Array;
  readonly tests: readonly string[];
  /** Minutes. */
  readonly costs: Float64Array;
  /** outcomes[test][state], counted from 0. */
  readonly outcomes: readonly Uint8Array[];
  readonly setUps?: MatrixSetUps;
};

/** A matrix as a search problem: every state its own group. `start` is the set-up that it is met in. */
export function matrixProblem(matrix: TestMatrix, start = 0): TestProblem {
  const { setUps } = matrix;
  const count = setUps?.names.length ?? 1;
  // The search begins in set-up 0: numbers are turned so that `start` is it.
  const turned = (setUp: number): number => (setUp + start) % count;
  const minutes = new Float64Array(matrix.tests.length * count);
  const after = new Int32Array(matrix.tests.length * count);
  for (const [test, cost] of matrix.costs.entries()) {
    for (let from = 0; from < count; from += 1) {
      const wants = setUps?.wants[test] ?? -1;
      const to = wants < 0 ? turned(from) : wants;
      minutes[test * count + from] = cost + (setUps?.minutes[turned(from) * count + to] ?? 0);
      after[test * count + from] = (to - start + count) % count;
    }
  }
  return { weights: matrix.priors, groups: Int32Array.from(matrix.states, (_, i) => i), outcomes: matrix.outcomes, setUps: count, minutes, after };
}
