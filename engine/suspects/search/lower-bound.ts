import { huffmanLength } from './huffman-length.ts';
import { cheapestMinutes, minutesOfLength, mostOutcomes, type TestProblem, tellableGroups } from './test-problem.ts';

/**
 * Minutes that no tree can stay below: the mean length of Huffman's code over the groups that can be told apart, with as many symbols as the
 * test with most outcomes has, at the minutes of the cheapest tests. (The binary code is no bound where a test has three outcomes.) Weights
 * need not sum to 1.
 */
export function lowerBound(problem: TestProblem): number {
  const weights = tellable(problem);
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  if (weights.length < 2 || whole <= 0) return 0;
  const length = huffmanLength(
    weights.map((weight) => weight / whole),
    mostOutcomes(problem),
  );
  return minutesOfLength(cheapestMinutes(problem), length);
}

/** Weights of the groups that can be told apart. */
function tellable(problem: TestProblem): readonly number[] {
  const sums = new Map<number, number>();
  for (const [state, group] of tellableGroups(problem).groups.entries()) sums.set(group, (sums.get(group) ?? 0) + (problem.weights[state] ?? 0));
  return [...sums.values()];
}
