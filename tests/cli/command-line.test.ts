import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

// The command line as a newcomer runs it: a process, its exit code and what it prints.

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const FLAGSHIP = 'trees/no-water-at-the-pad.tree.mdx';

function ohmward(args: readonly string[], input = '') {
  const run = spawnSync(process.execPath, ['--import', 'tsx', 'engine/cli/main.ts', ...args], { cwd: ROOT, input, encoding: 'utf8' });
  return { status: run.status, out: run.stdout, err: run.stderr };
}

const folder = (): string => mkdtempSync(join(tmpdir(), 'ohmward-'));

const TO_COIL_OPEN = [
  { type: 'looked', saw: 'pad dry' },
  { type: 'looked', saw: 'asks for humidity' },
  { type: 'looked', saw: 'open' },
  { type: 'looked', saw: 'silent' },
  { type: 'read', typed: '26.9' },
  { type: 'did' },
  { type: 'looked', saw: 'still dry' },
  { type: 'read', typed: '26.8 V' },
  { type: 'told', fact: 'wiring', typed: 'own-transformer' },
  { type: 'did' },
  { type: 'read', typed: '0.0' },
  { type: 'did' },
  { type: 'read', typed: 'OL' },
];

function script(events: readonly unknown[]): string {
  const file = join(folder(), 'events.jsonl');
  writeFileSync(file, events.map((event) => JSON.stringify(event)).join('\n'));
  return file;
}

describe('check', () => {
  it('exits 0 on the shipped trees and says so', () => {
    const { status, out } = ohmward(['check', FLAGSHIP, '--json']);
    expect(status).toBe(0);
    expect(JSON.parse(out)).toEqual({ ok: true, problems: [] });
  });

  it('exits 1 on a broken tree, with place and fix', () => {
    const file = join(folder(), 'broken.tree.mdx');
    writeFileSync(
      file,
      readFileSync(join(ROOT, 'tests/proof/sound.tree.mdx'), 'utf8')
        .replace('benches: [proof-bench]\n', '')
        .replace('- above 10 V: [Far side](#far-side)', '- above 12 ohm: [Far side](#far-sid)'),
    );
    const { status, out } = ohmward(['check', file, '--json']);
    expect(status).toBe(1);
    const report = JSON.parse(out);
    expect(report.ok).toBe(false);
    const codes = report.problems.map((p: { code: string }) => p.code);
    expect(codes).toEqual(expect.arrayContaining(['unit-mismatch', 'missing-target']));
    for (const problem of report.problems) {
      expect(Object.keys(problem)).toEqual(expect.arrayContaining(['severity', 'code', 'message', 'file', 'line', 'column', 'fix']));
      expect(problem.fix).not.toBe('');
    }
    const target = report.problems.find((p: { code: string }) => p.code === 'missing-target');
    expect(target).toMatchObject({ step: 'fed-side', file });
    expect(target.fix).toContain('far-side');
  });

  it('a file that is not there, or is no text, is a problem and not a crash', () => {
    const bytes = join(folder(), 'bytes.tree.mdx');
    writeFileSync(bytes, Buffer.from([0, 255, 254, 1, 2, 60, 123]));
    const { status, out, err } = ohmward(['check', 'no/such.tree.mdx', bytes, 'README.md', '--json']);
    expect(status).toBe(1);
    expect(err).toBe('');
    expect(JSON.parse(out).problems.map((p: { code: string }) => p.code)).toEqual(expect.arrayContaining(['not-readable']));
  });
});

describe('walk and replay', () => {
  it('walks a script to its finding; the log replays to the same place', () => {
    const log = join(folder(), 'call.jsonl');
    const walked = ohmward(['walk', FLAGSHIP, '--script', script(TO_COIL_OPEN), '--brisk', '--log', log, '--json']);
    expect(walked.status).toBe(0);
    const report = JSON.parse(walked.out);
    expect(report).toMatchObject({ step: 'coil-open', state: 'finding', finding: { step: 'coil-open', faults: ['coil-open'] }, refused: null });
    expect(report.putBack).toEqual(['land coil-hot', 'turn main-power on']);
    const replayed = ohmward(['replay', log, '--json']);
    expect(replayed.status).toBe(0);
    const { refused: _, ...same } = report;
    expect(JSON.parse(replayed.out)).toMatchObject({ ...same, brokenAt: null });
  });

  it('names the line that was changed and keeps what came before', () => {
    const log = join(folder(), 'call.jsonl');
    ohmward(['walk', FLAGSHIP, '--script', script(TO_COIL_OPEN), '--brisk', '--log', log]);
    const lines = readFileSync(log, 'utf8').trimEnd().split('\n');
    const at = lines.findIndex((line) => line.includes('"typed":"26.9"'));
    lines[at] = (lines[at] ?? '').replace('"typed":"26.9"', '"typed":"2.9"');
    writeFileSync(log, lines.join('\n'));
    const { status, out } = ohmward(['replay', log, '--json']);
    expect(status).toBe(1);
    const report = JSON.parse(out);
    expect(report).toMatchObject({ brokenAt: at, step: 'power-at-r-and-c', lines: lines.length });
    expect(report.problems[0]).toMatchObject({ code: 'line-changed', line: at + 1 });
  });

  it('begins no log for a script that is not there', () => {
    const place = folder();
    const none = join(place, 'none.jsonl');
    const { status, err } = ohmward(['walk', FLAGSHIP, '--script', none, '--log', join(place, 'call.jsonl')]);
    expect(status).toBe(1);
    expect(err).toContain(`There is no script ${none}.`);
    expect(readdirSync(place)).toEqual([]);
  });

  it('stops a script at what is refused, says where and why, and keeps the rest of the log', () => {
    const log = join(folder(), 'call.jsonl');
    const { status, out } = ohmward([
      'walk',
      FLAGSHIP,
      '--script',
      script([...TO_COIL_OPEN.slice(0, 4), { type: 'read', typed: 'lots' }]),
      '--brisk',
      '--log',
      log,
      '--json',
    ]);
    expect(status).toBe(1);
    expect(JSON.parse(out)).toMatchObject({ step: 'power-at-r-and-c', refused: { line: 5, event: { typed: 'lots' } } });
    expect(readFileSync(log, 'utf8').trimEnd().split('\n').length).toBe(JSON.parse(out).events);
  });

  it('never writes over a log', () => {
    const log = join(folder(), 'call.jsonl');
    writeFileSync(log, 'mine\n');
    expect(ohmward(['walk', FLAGSHIP, '--script', script([]), '--log', log]).status).toBe(1);
    expect(readFileSync(log, 'utf8')).toBe('mine\n');
  });

  it('walks in the terminal', () => {
    const log = join(folder(), 'call.jsonl');
    const { status, out } = ohmward(
      ['walk', FLAGSHIP, '--log', log],
      ['', '', 'pad dry', '', '1', '', '1', '', '2', '', 'abc', '26.9', '', 'leave', ''].join('\n'),
    );
    expect(status).toBe(0);
    expect(out).toContain('“abc” is not a number');
    expect(out).toContain('85 % of coil-rated to 125 % of coil-rated');
    expect(readdirSync(join(log, '..')).some((name) => name.endsWith('.edition.json'))).toBe(true);
  });

  it('will not walk a tree with errors, nor replay what is no log', () => {
    const file = join(folder(), 'broken.tree.mdx');
    writeFileSync(file, '# nothing\n');
    expect(ohmward(['walk', file]).status).toBe(1);
    const log = join(folder(), 'x.jsonl');
    writeFileSync(log, 'hello\n');
    const { status, err } = ohmward(['replay', log]);
    expect(status).toBe(1);
    expect(err).toContain('no line of a walk');
  });
});

describe('bench and prove', () => {
  const BENCH = 'tests/proof/proof-bench.bench.yaml';

  it('reads a bench with a simulated meter', () => {
    const { status, out } = ohmward(['bench', BENCH, '--jumper', 'K1,K2', '--fault', 'coil-open', '--measure', 'ac-voltage:R,C', '--json']);
    expect(status).toBe(0);
    const report = JSON.parse(out);
    expect(report.reading).toMatchObject({ unit: 'V' });
    expect(report.reading.value).toBeGreaterThan(26);
    expect(report.signs).toEqual({ 'water-runs': false, 'display-lit': true });
    expect(report.settled).toBe(true);
    expect(Object.keys(report.nodes)).toEqual(expect.arrayContaining(['L1', 'R', 'C', 'V1']));
  });

  it('ohms on a live circuit are refused, and so is a name that is not there', () => {
    expect(ohmward(['bench', BENCH, '--measure', 'resistance:V1,C']).status).toBe(1);
    expect(ohmward(['bench', BENCH, '--fault', 'coil-opn']).err).toContain('coil-open');
    expect(ohmward(['bench', BENCH, '--set', 'main-power=of']).err).toContain('on, off');
  });

  it('proves a shipped tree', () => {
    const { status, out } = ohmward(['prove', 'trees/condensate-or-float-switch-holds-off.tree.mdx', '--json']);
    expect(status).toBe(0);
    const report = JSON.parse(out);
    expect(report).toMatchObject({ ok: true, healthy: true, rates: { detected: 1 } });
    expect(report.faults.every((f: { right: boolean }) => f.right)).toBe(true);
  });
});
