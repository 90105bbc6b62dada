import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { ROOT } from './repo-files.ts';

type Example = { readonly arguments: readonly string[]; readonly prints?: string };

const PREFIX = 'npm run -s ohmward -- ';

/** The command lines of the README in their order, each with the block of output that follows it, where one does. */
function examplesIn(text: string): Example[] {
  const found: Example[] = [];
  for (const [, commands = '', output] of text.matchAll(/^```sh\n([\s\S]*?)^```\n(?:\n```text\n([\s\S]*?)^```)?/gm)) {
    const lines = commands.split('\n').filter((line) => line.startsWith(PREFIX));
    for (const [index, line] of lines.entries()) {
      const isLast = index === lines.length - 1;
      found.push({ arguments: line.slice(PREFIX.length).split(/\s+/), ...(isLast && output !== undefined && { prints: output.trim() }) });
    }
  }
  return found;
}

const place = mkdtempSync(join(tmpdir(), 'ohmward-readme-'));
afterAll(() => rmSync(place, { recursive: true }));

/** Files that examples write. */
const WRITTEN = ['call.jsonl', 'open-call.jsonl', 'first-draft.tree.mdx', 'no-water.scxml', 'call.xes'];

/** Runs the command line; `leave` is typed in case it asks. Files that an example writes land in a folder of this test. */
function run(given: readonly string[]): Promise<{ code: number | null; out: string }> {
  const inPlace = given.map((argument) => (WRITTEN.includes(argument) ? join(place, argument) : argument));
  return new Promise((resolve) => {
    const child = spawn(process.execPath, ['--import', 'tsx', 'engine/cli/main.ts', ...inPlace], { cwd: ROOT });
    let out = '';
    child.stdout.on('data', (chunk: Buffer) => {
      out += chunk.toString();
    });
    child.on('close', (code) => resolve({ code, out: out.replaceAll(`${relative(ROOT, place)}/`, '').replaceAll(`${place}/`, '') }));
    child.stdin.end('leave\n');
  });
}

describe('every example of the README runs and prints what it says', () => {
  const examples = examplesIn(readFileSync(join(ROOT, 'README.md'), 'utf8'));

  test('there are some, of each command', () => {
    expect(new Set(examples.map((example) => example.arguments[0]))).toEqual(
      new Set(['check', 'walk', 'replay', 'bench', 'prove', 'next', 'review', 'draft', 'sequence', 'trade', 'export']),
    );
    expect(examples.filter(({ prints }) => prints !== undefined).length).toBeGreaterThan(1);
  });

  test.each(examples.map((example) => [example.arguments.join(' '), example] as const))('%s', async (_line, example) => {
    const { code, out } = await run(example.arguments);
    expect(code).toBe(0);
    if (example.prints !== undefined) expect(out.trim()).toBe(example.prints);
  });
});
