import { failure, type Result, success } from '../result.ts';
import { matrixWords, readMatrix, sequenceTests } from '../suspects/index.ts';
import { readTextFile } from './read-text-file.ts';

export type SequenceReport = {
  /** Least expected minutes; the rollout's where the method is not exact. */
  readonly optimum: number;
  readonly method: 'exact' | 'rollout';
  readonly firstTests: readonly string[];
  readonly informationGain: number;
  readonly rollout: number;
  readonly bound: number;
  /** Sets of states that the exact search opened, and the most it may. */
  readonly visited: number;
  readonly most: number;
};

// Sums of shares leave a tail of binary digits that means nothing.
const trimmed = (minutes: number): number => Number(minutes.toFixed(9));

/** Puts the tests of a matrix file in order. `from` names the set-up that the circuit is found in. */
export function sequenceFile(file: string, options: { readonly most?: string; readonly from?: string }): Result<SequenceReport, string> {
  const text = readTextFile(file, 'matrix');
  if (!text.ok) return text;
  const matrix = readMatrix(text.value);
  if (!matrix.ok) {
    const { message, fix } = matrixWords(matrix.problem);
    return failure(`${file}: ${message} ${fix}`);
  }
  const names = matrix.value.setUps?.names ?? [];
  const start = options.from === undefined ? 0 : names.indexOf(options.from);
  if (start < 0)
    return failure(
      names.length === 0 ? `${file} names no set-ups; leave --from off.` : `${file} has no set-up “${options.from}”. It has: ${names.join(', ')}.`,
    );
  const most = options.most === undefined ? undefined : Number(options.most);
  if (most !== undefined && !(Number.isInteger(most) && most >= 0)) return failure(`“${options.most}” is no number of sets.`);
  const {
    optimum,
    method,
    firstTests,
    informationGain,
    rollout,
    bound,
    visited,
    most: cap,
  } = sequenceTests(matrix.value, {
    start,
    ...(most !== undefined && { most }),
  });
  return success({
    optimum: trimmed(optimum),
    method,
    firstTests,
    informationGain: trimmed(informationGain),
    rollout: trimmed(rollout),
    bound: trimmed(bound),
    visited,
    most: cap,
  });
}

/** The report for people. */
export const sequenceText = (report: SequenceReport): string =>
  [
    `${report.method === 'exact' ? 'least' : 'best found'} ${report.optimum.toFixed(2)} min (${report.method}), begins with ${report.firstTests.join(' or ') || 'nothing'}`,
    `information gain a minute ${report.informationGain.toFixed(2)} min, rollout on it ${report.rollout.toFixed(2)} min, no tree below ${report.bound.toFixed(2)} min`,
    ...(report.method === 'exact' ? [] : [`the exact search stopped at ${report.most} sets`]),
  ].join('\n');
