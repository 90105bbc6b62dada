import { type Edition, logLines } from '../../../engine/walk/index.ts';
import { type PublicationProblem, readEditionFile } from '../../../shared/device/publication.ts';
import type { ChosenFile } from '../../data/read-chosen.ts';
import type { LogText } from './sum-up-log.ts';

/** What a file turned out to be. A log file may hold several walks. */
export type Opened =
  | { readonly file: string; readonly is: 'edition'; readonly hash: string; readonly edition: Edition }
  | { readonly file: string; readonly is: 'logs'; readonly logs: readonly OpenedLog[] }
  | { readonly file: string; readonly is: 'neither'; readonly problem?: PublicationProblem }
  | { readonly file: string; readonly is: 'unreadable' };

export type OpenedLog = LogText & { readonly walk: string; readonly edition: string };

/** Reads an opened file as what it is, whatever it is called: the text of a log begins with a line of a walk. */
export function readOpened({ name, text }: ChosenFile): Opened {
  if (text === undefined) return { file: name, is: 'unreadable' };
  const logs = logsOf(logLines(text));
  if (logs.length > 0) return { file: name, is: 'logs', logs };
  const edition = readEditionFile(text);
  if (edition.ok) return { file: name, is: 'edition', hash: edition.value.hash, edition: edition.value.edition };
  return { file: name, is: 'neither', ...(edition.problem.code !== 'not-json' && { problem: edition.problem }) };
}

type Named = { readonly walk: string; readonly edition: string; readonly seq: number };

function namedIn(line: unknown): Named | undefined {
  if (typeof line !== 'object' || line === null) return undefined;
  const { walk, edition, seq } = line as Partial<Record<keyof Named, unknown>>;
  return typeof walk === 'string' && walk !== '' && typeof edition === 'string' && typeof seq === 'number' ? { walk, edition, seq } : undefined;
}

/** The walks of a file's lines. A line that cannot be read stays where it is, so that the walk's replay says so. */
function logsOf(lines: readonly unknown[]): readonly OpenedLog[] {
  const found = new Map<string, { readonly edition: string; readonly lines: unknown[]; readonly aside: unknown[]; readonly seqs: Set<number> }>();
  let last: string | undefined;
  for (const line of lines) {
    const named = namedIn(line);
    const walk = named?.walk ?? last;
    if (walk === undefined) continue;
    last = walk;
    const log = found.get(walk) ?? { edition: named?.edition ?? '', lines: [], aside: [], seqs: new Set<number>() };
    found.set(walk, log);
    const isSecond = named !== undefined && log.seqs.has(named.seq);
    (isSecond ? log.aside : log.lines).push(line);
    if (named) log.seqs.add(named.seq);
  }
  return [...found].map(([walk, { edition, lines: main, aside }]) => ({ walk, edition, lines: main, aside }));
}

/** What two copies of a walk come to: the longer one where one goes on from the other, else both. */
export function mergedLog(kept: LogText, opened: LogText): LogText {
  const texts = (lines: readonly unknown[]): readonly string[] => lines.map((line) => JSON.stringify(line));
  const [mine, theirs] = [texts(kept.lines), texts(opened.lines)];
  const shared = Math.min(mine.length, theirs.length);
  const goesOn = mine.slice(0, shared).every((line, at) => line === theirs[at]);
  const lines = goesOn && theirs.length > mine.length ? opened.lines : kept.lines;
  const main = new Set(texts(lines));
  const others = [...kept.aside, ...opened.aside, ...opened.lines].filter((line) => !main.has(JSON.stringify(line)));
  const once = new Map(others.map((line) => [JSON.stringify(line), line]));
  return { lines, aside: [...once.values()] };
}
