import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readBench } from '../../engine/bench/index.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const GUIDE = readFileSync(new URL('guide.mdx', import.meta.url), 'utf8');
const PREFIX = 'npm run -s ohmward -- ';

const BLOCKS = [...GUIDE.matchAll(/^```(\w+)\n([\s\S]*?)^```$/gm)].map(([, language = '', text = '']) => ({ language, text }));
const only = (language: string): string => {
  const found = BLOCKS.filter((block) => block.language === language);
  expect(found).toHaveLength(1);
  return found[0]?.text ?? '';
};

const place = mkdtempSync(join(tmpdir(), 'ohmward-guide-'));
beforeAll(() => {
  mkdirSync(join(place, 'trees', 'benches'), { recursive: true });
  writeFileSync(join(place, 'trees', 'zone-stays-cold.tree.mdx'), only('mdx'));
  const bench = /^benches: \[([a-z-]+)\]$/m.exec(only('mdx'))?.[1];
  writeFileSync(join(place, 'trees', 'benches', `${bench}.bench.yaml`), only('yaml'));
});
afterAll(() => rmSync(place, { recursive: true }));

function run(line: string): Promise<{ readonly code: number | null; readonly out: string }> {
  const given = line.slice(PREFIX.length).split(/\s+/);
  const inPlace = given.map((word) => (word.startsWith('trees/') ? join(place, word) : word));
  return new Promise((resolve) => {
    const child = spawn(process.execPath, ['--import', 'tsx', 'engine/cli/main.ts', ...inPlace], { cwd: ROOT });
    let out = '';
    child.stdout.on('data', (chunk: Buffer) => {
      out += chunk.toString();
    });
    child.on('close', (code) => resolve({ code, out }));
  });
}

test('no block of the guide is left unread', () =>
  expect([...new Set(BLOCKS.map(({ language }) => language))].sort()).toEqual(['mdx', 'sh', 'yaml']));

test('its bench has no problems', () => expect(readBench(only('yaml'), { file: 'guide' }).problems).toEqual([]));

const commands = BLOCKS.filter(({ language }) => language === 'sh').flatMap(({ text }) => text.trim().split('\n'));

test.each(commands)('%s runs on its files and finds nothing wrong', async (line) => {
  expect(line.startsWith(PREFIX)).toBe(true);
  const { code, out } = await run(line);
  expect(out).not.toBe('');
  expect(code, out).toBe(0);
  if (line.includes(' prove ')) expect(out).toMatch(/detected 100\.0 %, isolated to one fault 100\.0 %/);
});
