import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { DeskFile } from '../store/desk-file.ts';
import { renameFile } from './rename-file.ts';

const FOLDER = new URL('../../trees/', import.meta.url);
const shipped = (...paths: readonly string[]): ReadonlyMap<string, DeskFile> =>
  new Map(paths.map((path) => [path, { path, text: readFileSync(new URL(path, FOLDER), 'utf8'), changedAt: 0 }]));

const BENCH = 'benches/own-transformer.bench.yaml';
const FLAGSHIP = 'no-water-at-the-pad.tree.mdx';
const files = shipped(FLAGSHIP, 'ignition-call-to-proved-flame.tree.mdx', BENCH);
const lines = (text: string | undefined): readonly string[] => text?.split('\n') ?? [];
const changed = (path: string, after: string | undefined): readonly string[] =>
  lines(after).filter((line, at) => line !== lines(files.get(path)?.text)[at]);

test('links of other trees follow a tree, and nothing else in their lines changes', () => {
  const renamed = renameFile(files, 'ignition-call-to-proved-flame.tree.mdx', 'Call to flame');
  if (!renamed.ok) throw new Error(renamed.problem.code);
  expect(renamed.value.to).toBe('call-to-flame.tree.mdx');
  expect(renamed.value.edits.get('ignition-call-to-proved-flame.tree.mdx')).toBeUndefined();
  expect(renamed.value.follows).toContain(FLAGSHIP);
  const after = renamed.value.edits.get(FLAGSHIP);
  const before = files.get(FLAGSHIP)?.text ?? '';
  expect(after).toBe(before.replaceAll('ignition-call-to-proved-flame.tree.mdx', 'call-to-flame.tree.mdx'));
  expect(after).not.toBe(before);
});

test('a name that only ends alike is another tree', () => {
  const two = new Map([
    ['heat.tree.mdx', { path: 'heat.tree.mdx', text: 'x', changedAt: 0 }],
    ['a.tree.mdx', { path: 'a.tree.mdx', text: '[a](no-heat.tree.mdx#x) [b](heat.tree.mdx#x)', changedAt: 0 }],
  ]);
  const renamed = renameFile(two, 'heat.tree.mdx', 'cold');
  expect(renamed.ok && renamed.value.edits.get('a.tree.mdx')).toBe('[a](no-heat.tree.mdx#x) [b](cold.tree.mdx#x)');
});

test("a bench is followed by its trees: their list, the wiring's choices, and the ways of the step that asks it", () => {
  const renamed = renameFile(files, BENCH, 'transformer-of-its-own');
  if (!renamed.ok) throw new Error(renamed.problem.code);
  expect(renamed.value.to).toBe('benches/transformer-of-its-own.bench.yaml');
  expect(renamed.value.edits.get(renamed.value.to)).toBe(files.get(BENCH)?.text);
  const after = renamed.value.edits.get(FLAGSHIP);
  expect(after).toContain('benches: [transformer-of-its-own, contact-fed-from-equipment-r, relay-to-line-humidifier]');
  expect(after).toContain('usual: transformer-of-its-own');
  expect(lines(after).filter((line) => line.startsWith('- transformer-of-its-own: ')).length).toBeGreaterThan(0);
  expect(lines(after).some((line) => /^(benches|.*choices|- own-transformer)\b.*own-transformer(?!-)/.test(line))).toBe(false);
  // Only lines that named it are written anew.
  expect(changed(FLAGSHIP, after).every((line) => line.includes('transformer-of-its-own'))).toBe(true);
  expect(lines(after)).toHaveLength(lines(files.get(FLAGSHIP)?.text).length);
});

test.each([
  ['nothing', '  ', 'no-name'],
  ['marks alone', '…', 'no-name'],
  ['its own name', 'No water at the pad', 'same'],
  ['a name that is taken', 'Ignition: call to proved flame', 'taken'],
  ['a name beyond measure', 'x'.repeat(80), 'too-long'],
])('%s is refused', (_, typed, code) => expect(renameFile(files, FLAGSHIP, typed)).toMatchObject({ ok: false, problem: { code } }));

test('a bench whose tree cannot be read keeps its name', () => {
  const broken = new Map([...files, [FLAGSHIP, { path: FLAGSHIP, text: `${files.get(FLAGSHIP)?.text}\n<Nothing`, changedAt: 0 }]]);
  expect(renameFile(broken, BENCH, 'another')).toMatchObject({ ok: false, problem: { code: 'unread', path: FLAGSHIP } });
});
