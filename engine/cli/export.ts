import { writeFileSync } from 'node:fs';
import { type ExportedWalk, eventsCsv, readLogFile, scxmlChart, walksCsv, xapiStatements, xesLog } from '../exchange/index.ts';
import { failure, type Result, success } from '../result.ts';
import { logProblemWords, replayLog, type WalkLine, walkableEdition } from '../walk/index.ts';
import { openEdition } from './open-edition.ts';
import { readTextFile } from './read-text-file.ts';
import { editionOf } from './replay.ts';

export const EXPORT_FORMATS = ['scxml', 'xes', 'xapi', 'csv'] as const;
export type ExportFormat = (typeof EXPORT_FORMATS)[number];
export const isExportFormat = (name: string): name is ExportFormat => EXPORT_FORMATS.some((format) => format === name);

export type ExportOptions = {
  readonly edition?: string;
  readonly trees: string;
  /** With csv: a row a walk instead of a row an event. */
  readonly walks?: boolean;
  /** With xapi: the address of the system that the techs' names are of. */
  readonly home: string;
};

export type Exported = {
  readonly text: string;
  /** What did not stop the export and has to be known. */
  readonly warnings: readonly string[];
};

/** The files in an open format, as text. */
export async function exportFiles(format: ExportFormat, files: readonly string[], options: ExportOptions): Promise<Result<Exported, string>> {
  if (format === 'scxml') {
    const [file] = files;
    if (files.length !== 1 || file === undefined) return failure('A state chart is of one tree or edition. Name one file.');
    const edition = openEdition(file);
    return edition.ok ? success({ text: scxmlChart(walkableEdition(edition.value)), warnings: [] }) : edition;
  }
  if (!/^[a-z][a-z0-9+.-]*:\S+$/i.test(options.home))
    return failure(`${options.home} is no address. Name the system that the names are of, such as https://hub.example.`);
  const walks: ExportedWalk[] = [];
  const warnings: string[] = [];
  for (const file of files) {
    const walk = await walksIn(file, options, warnings);
    if (!walk.ok) return walk;
    walks.push(...walk.value);
  }
  return success({ text: textOf(format, walks, options), warnings });
}

function textOf(format: Exclude<ExportFormat, 'scxml'>, walks: readonly ExportedWalk[], { walks: byWalk, home }: ExportOptions): string {
  switch (format) {
    case 'xes':
      return xesLog(walks);
    case 'xapi':
      return `${JSON.stringify(xapiStatements(walks, home), null, 2)}\n`;
    case 'csv':
      return byWalk ? walksCsv(walks) : eventsCsv(walks);
  }
}

/** The walks of one file; what is wrong with its lines goes to `warnings`. */
async function walksIn(file: string, options: ExportOptions, warnings: string[]): Promise<Result<readonly ExportedWalk[], string>> {
  const text = readTextFile(file, 'log');
  if (!text.ok) return text;
  const { lines, problems } = readLogFile(text.value);
  if (lines.length === 0) return failure(`${file} holds no line of a walk's log.`);
  for (const { line, detail } of problems) warnings.push(`${file}:${line} is no line of a log and is left out: ${detail}`);
  const byWalk = new Map<string, WalkLine[]>();
  for (const line of lines) byWalk.set(line.walk, [...(byWalk.get(line.walk) ?? []), line]);
  const walks: ExportedWalk[] = [];
  for (const [walk, own] of byWalk) {
    const edition = await editionOf(file, own[0]?.edition ?? '', options.edition, options.trees);
    if (!edition.ok) return failure(`${file}: ${edition.problem}`);
    const walkable = walkableEdition(edition.value);
    const [problem] = replayLog(walkable, own).problems;
    if (problem) warnings.push(`${file}, walk ${walk}: ${logProblemWords(problem).message}`);
    walks.push({ edition: walkable, lines: own });
  }
  return success(walks);
}

/** Writes a new file, or over one where that was asked for; what went wrong, otherwise undefined. */
export function writeExport(file: string, text: string, over: boolean): string | undefined {
  try {
    writeFileSync(file, text, { flag: over ? 'w' : 'wx' });
    return undefined;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST')
      return `${file} is there already and was left as it is. Name another file, or add --over to replace it.`;
    return `${file} cannot be written: ${error instanceof Error ? error.message : String(error)}`;
  }
}
