import { type WalkLine, walkLineSchema } from '../walk/index.ts';

/** A line of a file that is no line of a log: its number from 1, what it holds, and why not. */
export type BadLine = { readonly line: number; readonly text: string; readonly code: 'not-json' | 'not-a-line'; readonly detail: string };

export type LogFileRead = {
  readonly lines: readonly WalkLine[];
  readonly problems: readonly BadLine[];
  /** What each line that is not blank holds, in order and good or bad, for a replay to judge. */
  readonly raw: readonly unknown[];
};

/** Reads the text of a log file. Nothing is lost: what is no line of a log is given with its number and its text. */
export function readLogFile(text: string): LogFileRead {
  const lines: WalkLine[] = [];
  const problems: BadLine[] = [];
  const raw: unknown[] = [];
  for (const [index, source] of text
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .entries()) {
    if (source.trim() === '') continue;
    let value: unknown;
    try {
      value = JSON.parse(source);
    } catch (error) {
      raw.push(source);
      problems.push({ line: index + 1, text: source, code: 'not-json', detail: error instanceof Error ? error.message : '' });
      continue;
    }
    raw.push(value);
    const parsed = walkLineSchema.safeParse(value);
    if (parsed.success) lines.push(parsed.data);
    else {
      const issue = parsed.error.issues[0];
      problems.push({
        line: index + 1,
        text: source,
        code: 'not-a-line',
        detail: issue ? `${issue.path.join('.') || 'line'}: ${issue.message}` : '',
      });
    }
  }
  return { lines, problems, raw };
}
