import { closeSync, existsSync, fsyncSync, openSync, readFileSync, writeFileSync, writeSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { type Edition, editionHash, readEdition, type Stamp, type WalkLine } from '../walk/index.ts';

/** A log being written: each line is on the disk before `write` returns. */
export class LogFile {
  private readonly handle: number;

  /** Refuses to write over a log that has lines: a log is only ever added to. */
  constructor(readonly file: string) {
    this.handle = openSync(file, 'ax');
  }

  write(line: WalkLine): void {
    writeSync(this.handle, `${JSON.stringify(line)}\n`);
    fsyncSync(this.handle);
  }

  close(): void {
    closeSync(this.handle);
  }
}

/** Where the edition of a log is kept: beside it, under its hash, so that the log can be replayed wherever both go. */
export const editionFileFor = (logFile: string, hash: string): string => join(dirname(resolve(logFile)), `${hash}.edition.json`);

export function keepEdition(logFile: string, edition: Edition): void {
  const file = editionFileFor(logFile, editionHash(edition));
  if (!existsSync(file)) writeFileSync(file, JSON.stringify(edition));
}

/** An edition from a file; undefined where it is none or was changed since it was named. */
export function editionFrom(file: string, hash?: string): Edition | undefined {
  if (!existsSync(file)) return undefined;
  try {
    const edition = readEdition(JSON.parse(readFileSync(file, 'utf8')));
    if (!edition.ok) return undefined;
    return hash === undefined || editionHash(edition.value) === hash ? edition.value : undefined;
  } catch {
    return undefined;
  }
}

/** The time now, ISO 8601 with this machine's offset, and a clock that never runs back. */
export function stampNow(): Stamp {
  const now = new Date();
  const offset = -now.getTimezoneOffset();
  const two = (n: number): string => String(Math.trunc(Math.abs(n))).padStart(2, '0');
  const local = new Date(now.getTime() + offset * 60_000).toISOString().slice(0, -1);
  return { time: `${local}${offset < 0 ? '-' : '+'}${two(offset / 60)}:${two(offset % 60)}`, mono: Math.round(performance.now()) };
}
