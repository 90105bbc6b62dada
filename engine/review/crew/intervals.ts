// The package brings no types of its own.
/// <reference path="./jstat.d.ts" />
import jStat from 'jstat';

/** A number with the 95 % interval that it can be trusted to, and what it was counted over. */
export type Interval = { readonly value: number; readonly low: number; readonly high: number; readonly n: number };

const Z = 1.959964;

/** A share of `n` by Wilson's score interval (Wilson 1927), which stays within 0 and 1 and holds for few; undefined for none. */
export function shareOf(hits: number, n: number): Interval | undefined {
  if (n <= 0) return undefined;
  const p = hits / n;
  const z2 = Z * Z;
  const middle = (p + z2 / (2 * n)) / (1 + z2 / n);
  const half = (Z / (1 + z2 / n)) * Math.sqrt((p * (1 - p)) / n + z2 / (4 * n * n));
  return { value: p, low: hits === 0 ? 0 : middle - half, high: hits === n ? 1 : middle + half, n };
}

/** A mean by Student's t; one value alone can be anything. Undefined for none. */
export function meanOf(values: readonly number[]): Interval | undefined {
  const n = values.length;
  if (n === 0) return undefined;
  const { mean, variance } = momentsOf(values);
  const half = n < 2 ? Number.POSITIVE_INFINITY : jStat.studentt.inv(0.975, n - 1) * Math.sqrt(variance / n);
  return { value: mean, low: mean - half, high: mean + half, n };
}

export type Moments = { readonly n: number; readonly mean: number; readonly variance: number };

/** Mean and sample variance. */
export function momentsOf(values: readonly number[]): Moments {
  const n = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / Math.max(1, n);
  const variance = n < 2 ? 0 : values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1);
  return { n, mean, variance };
}

/** The difference of two means by Welch's t, with its two-sided p; undefined where one side has fewer than two. */
export function welch(a: Moments, b: Moments): { readonly difference: Interval; readonly p: number } | undefined {
  if (a.n < 2 || b.n < 2) return undefined;
  const [va, vb] = [a.variance / a.n, b.variance / b.n];
  const spread = Math.sqrt(va + vb);
  const value = a.mean - b.mean;
  const n = a.n + b.n;
  if (spread === 0) return { difference: { value, low: value, high: value, n }, p: value === 0 ? 1 : 0 };
  const freedom = (va + vb) ** 2 / (va ** 2 / (a.n - 1) + vb ** 2 / (b.n - 1));
  const half = jStat.studentt.inv(0.975, freedom) * spread;
  return { difference: { value, low: value - half, high: value + half, n }, p: 2 * jStat.studentt.cdf(-Math.abs(value) / spread, freedom) };
}

/** The difference of two shares by Newcombe's score method (1998, method 10); undefined where one side has none. */
export function shareDifference(hitsA: number, a: number, hitsB: number, b: number): Interval | undefined {
  const [one, other] = [shareOf(hitsA, a), shareOf(hitsB, b)];
  if (!one || !other) return undefined;
  const value = one.value - other.value;
  return {
    value,
    low: value - Math.hypot(one.value - one.low, other.high - other.value),
    high: value + Math.hypot(one.high - one.value, other.value - other.low),
    n: a + b,
  };
}

/** Fisher's exact test of two shares, two-sided: the chance of a table no likelier than this one (Fisher 1935). */
export function fisher(hitsA: number, a: number, hitsB: number, b: number): number {
  const hits = hitsA + hitsB;
  const logOf = (k: number): number => logChoose(a, k) + logChoose(b, hits - k) - logChoose(a + b, hits);
  const own = logOf(hitsA);
  let p = 0;
  for (let k = Math.max(0, hits - b); k <= Math.min(a, hits); k += 1) if (logOf(k) <= own + 1e-7) p += Math.exp(logOf(k));
  return Math.min(1, p);
}

const logChoose = (n: number, k: number): number => jStat.gammaln(n + 1) - jStat.gammaln(k + 1) - jStat.gammaln(n - k + 1);

/** Which of many tests stand at 5 % for all of them together, by Holm's step-down (Holm 1979). */
export function holm(ps: readonly number[], level = 0.05): readonly boolean[] {
  const order = ps.map((p, i) => ({ p, i })).sort((x, y) => x.p - y.p);
  const stands = ps.map(() => false);
  for (const [rank, { p, i }] of order.entries()) {
    if (p > level / (ps.length - rank)) break;
    stands[i] = true;
  }
  return stands;
}

/** The 95 % interval of one share of a Dirichlet: its marginal is a Beta. */
export function betaInterval(hits: number, misses: number): { readonly low: number; readonly high: number } {
  if (hits <= 0) return { low: 0, high: 0 };
  if (misses <= 0) return { low: 1, high: 1 };
  return { low: jStat.beta.inv(0.025, hits, misses), high: jStat.beta.inv(0.975, hits, misses) };
}
