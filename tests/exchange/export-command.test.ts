import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, describe, expect, test } from 'vitest';
import { type ExportFormat, type ExportOptions, exportFiles, writeExport } from '../../engine/cli/export.ts';
import { keepEdition } from '../../engine/cli/log-file.ts';
import type { WalkLine } from '../../engine/walk/index.ts';
import { closedWalk, EDITION } from '../crew/testing/sample-walks.ts';
import { ROOT } from '../structure/repo-files.ts';
import { xmlTroubles } from './testing/xml-valid.ts';

const place = mkdtempSync(join(tmpdir(), 'ohmward-export-'));
afterAll(() => rmSync(place, { recursive: true }));

const TREE = 'trees/no-water-at-the-pad.tree.mdx';

function ohmward(...args: readonly string[]) {
  const run = spawnSync(process.execPath, ['--import', 'tsx', 'engine/cli/main.ts', 'export', ...args], { cwd: ROOT, encoding: 'utf8' });
  return { status: run.status, out: run.stdout, err: run.stderr };
}

function log(name: string, lines: readonly (WalkLine | string)[]): string {
  const file = join(place, name);
  writeFileSync(file, lines.map((line) => (typeof line === 'string' ? line : JSON.stringify(line))).join('\n'));
  keepEdition(file, EDITION);
  return file;
}

const lines = closedWalk('one');
const one = log('one.jsonl', lines);
const two = log('two.jsonl', [...closedWalk('two', 'Pat Tech'), ...closedWalk('three', 'Lee Tech')]);

const options = { trees: join(place, 'no-trees'), home: 'urn:ohmward:crew' };

async function exported(format: ExportFormat, files: readonly string[], given: Partial<ExportOptions> = {}) {
  const made = await exportFiles(format, files, { ...options, ...given });
  if (!made.ok) throw new Error(made.problem);
  return made.value;
}

const rowsOf = (text: string): Record<string, string>[] => parse(text, { columns: true, record_delimiter: '\r\n' });

describe('what is given out', () => {
  test('a tree as a valid chart', async () => {
    const { text, warnings } = await exported('scxml', [TREE]);
    expect(warnings).toEqual([]);
    expect(await xmlTroubles(text, 'scxml.xsd')).toEqual([]);
  });

  test('a row an event, and a row a walk of every walk in the files', async () => {
    expect(rowsOf((await exported('csv', [one])).text)).toHaveLength(lines.length);
    const { text } = await exported('csv', [one, two], { walks: true });
    expect(rowsOf(text)).toMatchObject([{ by: 'Tam Tech' }, { by: 'Pat Tech' }, { by: 'Lee Tech' }]);
  });

  test('statements name the system that was given', async () => {
    const { text } = await exported('xapi', [one], { home: 'https://hub.example' });
    const homes = JSON.parse(text).map(({ actor }: { actor: { account: { homePage: string } } }) => actor.account.homePage);
    expect(new Set(homes)).toEqual(new Set(['https://hub.example']));
  });

  test('a line that is none is named by its number', async () => {
    const { text, warnings } = await exported('csv', [log('torn.jsonl', [...lines, '{"walk":"o'])]);
    expect(warnings).toEqual([expect.stringContaining(`torn.jsonl:${lines.length + 1} `)]);
    expect(rowsOf(text)).toHaveLength(lines.length);
  });

  test.each<readonly [string, ExportFormat, readonly string[], string, string]>([
    ['no such log', 'csv', [join(place, 'gone.jsonl')], options.home, 'There is no log'],
    ['a log with no line', 'csv', [log('empty.jsonl', ['', 'nothing'])], options.home, "holds no line of a walk's log"],
    ['two trees in a chart', 'scxml', [TREE, TREE], options.home, 'Name one file'],
    ['an address that is none', 'xapi', [one], 'the hub', 'is no address'],
  ])('%s is refused, with why', async (_why, format, files, home, says) => {
    const made = await exportFiles(format, files, { ...options, home });
    expect(made).toMatchObject({ ok: false, problem: expect.stringContaining(says) });
  });

  test('a folder that is not there is said, and not made', () => {
    expect(writeExport(join(place, 'no', 'call.csv'), 'text', true)).toContain('cannot be written');
    expect(existsSync(join(place, 'no'))).toBe(false);
  });
});

describe('export, as a process', () => {
  test('a file that is there is left as it is, unless asked', async () => {
    const file = join(place, 'kept.xes');
    writeFileSync(file, 'mine');
    const refused = ohmward(one, '--as', 'xes', '--out', file);
    expect(refused.status).toBe(1);
    expect(refused.err).toContain('--over');
    expect(readFileSync(file, 'utf8')).toBe('mine');
    expect(ohmward(one, '--as', 'xes', '--out', file, '--over')).toMatchObject({ status: 0, err: '' });
    expect(await xmlTroubles(readFileSync(file, 'utf8'), 'xes.xsd')).toEqual([]);
  });

  test('a log with a gap is given out whole, the gap said, and ends in 1', () => {
    const holed = lines.filter((_, index) => index !== 4);
    const { status, out, err } = ohmward(log('holed.jsonl', holed), '--as', 'csv');
    expect(status).toBe(1);
    expect(err).toContain('walk one: ');
    expect(rowsOf(out)).toHaveLength(holed.length);
  });

  test('a format that is none ends in 1, with those there are', () => {
    const { status, out, err } = ohmward(one, '--as', 'pdf');
    expect({ status, out }).toEqual({ status: 1, out: '' });
    expect(err).toContain('Name one of scxml, xes, xapi, csv');
  });
}, 60_000);
