import { existsSync } from 'node:fs';
import { failure, type Result, success } from '../result.ts';
import { type Edition, logLines, logProblemWords, type Replay, replayLog, walkableEdition } from '../walk/index.ts';
import { editionFileFor, editionFrom } from './log-file.ts';
import { openEdition } from './open-edition.ts';
import { readTextFile } from './read-text-file.ts';
import { loadShippedEditions } from './shipped-editions.ts';
import { type WalkReport, walkReport } from './walk-report.ts';

export type ReplayReport = WalkReport & {
  /** The seq of the first line that cannot be trusted; null where the whole log can. */
  readonly brokenAt: number | null;
  readonly lines: number;
  readonly problems: readonly { readonly code: string; readonly line: number; readonly message: string; readonly fix: string }[];
};

/** The edition that a log's lines name. */
export function editionNamedIn(lines: readonly unknown[]): string | undefined {
  for (const line of lines)
    if (typeof line === 'object' && line !== null && 'edition' in line && typeof line.edition === 'string') return line.edition;
  return undefined;
}

/** The edition that a log was walked on: the one given, beside the log, or of a folder of trees. */
export async function editionOf(logFile: string, hash: string, given: string | undefined, trees: string): Promise<Result<Edition, string>> {
  if (given !== undefined) return openEdition(given);
  const beside = editionFrom(editionFileFor(logFile, hash), hash);
  if (beside) return success(beside);
  const shipped = existsSync(trees) ? (await loadShippedEditions(trees)).editions.find((e) => e.hash === hash) : undefined;
  if (shipped) return success(shipped.edition);
  return failure(
    `The edition ${hash.slice(0, 12)}… that this log was walked on is neither beside the log nor in ${trees}. Name it with --edition FILE.`,
  );
}

/** Replays a log file on the edition it names. */
export async function replayFile(
  logFile: string,
  options: { readonly edition?: string; readonly trees: string },
): Promise<Result<ReplayReport, string>> {
  const text = readTextFile(logFile, 'log');
  if (!text.ok) return text;
  const lines = logLines(text.value);
  const hash = editionNamedIn(lines);
  if (hash === undefined) return failure(`${logFile} holds no line of a walk's log.`);
  const edition = await editionOf(logFile, hash, options.edition, options.trees);
  if (!edition.ok) return edition;
  return success(replayReport(replayLog(walkableEdition(edition.value), lines), lines.length));
}

function replayReport(replay: Replay, lines: number): ReplayReport {
  return {
    ...walkReport(replay.walk),
    brokenAt: replay.brokenAt ?? null,
    lines,
    problems: replay.problems.map((problem) => ({ code: problem.code, line: problem.line + 1, ...logProblemWords(problem) })),
  };
}
