import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { outsideUses } from './purity-rules.ts';
import { ROOT, sourceFiles } from './repo-files.ts';

describe('the engine has no clock, no chance and no world of its own', () => {
  test('in every file but the command line and the tests', () => {
    const files = sourceFiles(/\.ts$/).filter(
      (path) => path.startsWith('engine/') && !path.startsWith('engine/cli/') && !/\.test\.ts$|\/testing\//.test(path),
    );
    expect(files.length).toBeGreaterThan(30);
    expect(files.flatMap((path) => outsideUses(path, readFileSync(join(ROOT, path), 'utf8')))).toEqual([]);
  });

  test.each([
    'const now = Date.now();',
    'const now = new Date();',
    'const x = Math.random();',
    'await fetch("/a");',
    'globalThis.setTimeout(f, 1);',
    'setTimeout(f, 1);',
    'eval("1");',
    'new Function("return 1");',
    'localStorage.setItem("a", "b");',
  ])('the check finds %s', (line) => {
    expect(outsideUses('engine/walk/a.ts', `\n${line}\n`).map((found) => found.split(' ')[0])).toContain('engine/walk/a.ts:2');
  });

  test('the check passes over types, fields and arguments of the same name', () => {
    expect(
      outsideUses(
        'engine/walk/a.ts',
        'type A = { Date: string }; const b = { process: 1 }; b.process; f(b.fetch); Math.max(1, 2); Date.parse(b.time);',
      ),
    ).toEqual([]);
  });
});
