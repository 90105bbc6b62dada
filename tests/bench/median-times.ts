/** Time is taken over this many turns each, after a few that only warm up. */
type Turns = { readonly turns: number; readonly warmUp?: number };

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const [low = Number.NaN, high = Number.NaN] = [sorted[sorted.length % 2 === 0 ? middle - 1 : middle], sorted[middle]];
  return (low + high) / 2;
};

/**
 * Median milliseconds of two jobs, taken in turns so that what else the machine does falls on both. The order changes every
 * turn. A job's answer is kept alive until the end, so that none is skipped as unused.
 */
export function medianTimes(
  ours: () => unknown,
  other: () => unknown,
  { turns, warmUp = 5 }: Turns,
): { readonly ours: number; readonly other: number } {
  const kept: unknown[] = [];
  const time = (job: () => unknown): number => {
    const start = performance.now();
    kept[kept.length % 64] = job();
    return performance.now() - start;
  };
  const times: { ours: number[]; other: number[] } = { ours: [], other: [] };
  for (let turn = -warmUp; turn < turns; turn += 1) {
    const oursFirst = turn % 2 === 0;
    const first = time(oursFirst ? ours : other);
    const second = time(oursFirst ? other : ours);
    if (turn < 0) continue;
    times.ours.push(oursFirst ? first : second);
    times.other.push(oursFirst ? second : first);
  }
  return { ours: median(times.ours), other: median(times.other) };
}
