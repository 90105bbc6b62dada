import { failure, type Result, success } from '../result.ts';
import { canonicalHash } from './canonical-hash.ts';
import type { Refusal } from './refusal.ts';
import { refusalOf } from './refusal-of.ts';
import { asJudged, beginWalk, moved, type Walk, type WalkableEdition } from './walk.ts';
import { type WalkLine, walkLineSchema } from './walk-line.ts';
import { walkPosition } from './walk-position.ts';

/** What is wrong with a log. `line` counts from 0 in the lines given. */
export type LogProblem =
  | { readonly code: 'not-a-line'; readonly line: number; readonly detail: string }
  | { readonly code: 'line-changed'; readonly line: number; readonly seq: number }
  | { readonly code: 'chain-broken'; readonly line: number; readonly seq: number }
  | { readonly code: 'seq-gap'; readonly line: number; readonly expected: number; readonly got: number }
  | { readonly code: 'other-walk'; readonly line: number; readonly expected: string; readonly got: string }
  | { readonly code: 'other-edition'; readonly line: number; readonly expected: string; readonly got: string }
  | { readonly code: 'refused'; readonly line: number; readonly seq: number; readonly refusal: Refusal }
  | { readonly code: 'judged-otherwise'; readonly line: number; readonly seq: number };

export type Replay = {
  /** The walk as far as the log can be trusted. */
  readonly walk: Walk;
  readonly problems: readonly LogProblem[];
  /** The line (from 0) from which the log cannot be trusted; absent where all of it can. */
  readonly brokenAt?: number;
  /** Every line that can be read, those after the break included. */
  readonly readable: readonly WalkLine[];
};

/** Reads a log's text: one JSON value a line, blank lines and a byte order mark passed over. What is no JSON stays as its text. */
export function logLines(text: string): readonly unknown[] {
  return text
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .filter((line) => line.trim() !== '')
    .map((line): unknown => {
      try {
        return JSON.parse(line);
      } catch {
        return line;
      }
    });
}

/** Checks a line by itself and as the successor of the line before. */
function lineProblem(line: WalkLine, index: number, walk: Walk): LogProblem | undefined {
  const { hash, ...unsealed } = line;
  if (canonicalHash(unsealed) !== hash) return { code: 'line-changed', line: index, seq: line.seq };
  if (line.walk !== walk.id) return { code: 'other-walk', line: index, expected: walk.id, got: line.walk };
  if (line.edition !== walk.edition.hash) return { code: 'other-edition', line: index, expected: walk.edition.hash, got: line.edition };
  if (line.seq !== walk.length) return { code: 'seq-gap', line: index, expected: walk.length, got: line.seq };
  if (line.before !== walk.head) return { code: 'chain-broken', line: index, seq: line.seq };
  return undefined;
}

/**
 * The walk that a log tells, on the edition it was walked on. The same log always gives the same walk. Replay stops at the
 * first line that cannot be trusted and names it; the lines after it are still given as far as they can be read. `seen` is shown each line that is
 * taken, with the walk before and after it.
 */
export function replayLog(edition: WalkableEdition, lines: readonly unknown[], seen?: (line: WalkLine, before: Walk, after: Walk) => void): Replay {
  // A list from outside may have holes; `map` would pass over them.
  const parsed = Array.from(lines, (line) => walkLineSchema.safeParse(line));
  const readable = parsed.flatMap((p) => (p.success ? [p.data] : []));
  let walk = beginWalk(edition, readable[0]?.walk ?? 'empty');
  for (const [index, result] of parsed.entries()) {
    const next = result.success
      ? takenLine(walk, result.data, index)
      : failure<LogProblem>({ code: 'not-a-line', line: index, detail: result.error.issues[0]?.message ?? '' });
    if (!next.ok) return { walk, problems: [next.problem], brokenAt: index, readable };
    if (result.success) seen?.(result.data, walk, next.value);
    walk = next.value;
  }
  return { walk, problems: [], readable };
}

function takenLine(walk: Walk, line: WalkLine, index: number): Result<Walk, LogProblem> {
  const problem = lineProblem(line, index, walk);
  if (problem) return failure(problem);
  const snapshot = moved(walk, line.event);
  if (!snapshot) {
    const { compiled } = walk.edition;
    const { context } = walk.snapshot;
    const refusal = refusalOf(compiled, walkPosition(compiled, walk.snapshot.value, context), context, line.event);
    return failure({ code: 'refused', line: index, seq: line.seq, refusal });
  }
  // The verdict in the log is what the tech saw; if this engine judges otherwise, the two cannot both be shown as true.
  const again = asJudged(line.event, snapshot);
  if (canonicalHash(again) !== canonicalHash(line.event)) return failure({ code: 'judged-otherwise', line: index, seq: line.seq });
  return success({ ...walk, snapshot, length: walk.length + 1, head: line.hash });
}
