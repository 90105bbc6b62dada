/** One line of the table: our time beside another's for the same work, both in milliseconds and measured in the same run. */
export type BenchRow = {
  readonly name: string;
  /** Median time of ours, ms. */
  readonly ours: number;
  /** Median time of what it is compared with, ms. */
  readonly other: number;
  /** ours / other: below 1 is faster. */
  readonly ratio: number;
  readonly note: string;
};

/** A file `*-bench.ts` of this folder exports one of these as its default. */
export type Bench = () => Promise<readonly BenchRow[]>;

export const benchRow = (name: string, ours: number, other: number, note: string): BenchRow => ({ name, ours, other, ratio: ours / other, note });
