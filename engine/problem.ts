/** A place in a source file; lines and columns count from 1, columns in UTF-16 units. */
export type Place = { readonly line: number; readonly column: number; readonly endLine?: number; readonly endColumn?: number };

export type Severity = 'error' | 'warning';

/** One thing wrong with a file, worded: what the command line prints and the desk underlines. */
export type Problem = {
  readonly severity: Severity;
  readonly code: string;
  readonly message: string;
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine?: number;
  readonly endColumn?: number;
  /** The step (of a tree) or part (of a bench) that it is about. */
  readonly step?: string;
  /** The way out, in words. */
  readonly fix: string;
  /** The shortest path that shows it, where a path is needed to see it: step titles, settings and readings in order. */
  readonly path?: readonly string[];
};
