/** A walk's log as the text of a .jsonl file: one line a line, as stored, whether or not it can be trusted. */
export const logFileText = (lines: readonly unknown[]): string => lines.map((line) => `${JSON.stringify(line)}\n`).join('');

export const logFileName = (walk: string): string => `${walk}.walk.jsonl`;
