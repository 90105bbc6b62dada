import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ROOT, sourceFiles, topLevelNames } from './repo-files.ts';

const AT_THE_TOP = ['README.md', 'DEVELOPERS.md', 'package.json', 'package-lock.json', 'trees', 'engine', 'shared', 'author-ui', 'field-ui', 'tests'];

const strangers = (names: readonly string[]): string[] => names.filter((name) => !name.startsWith('.') && !AT_THE_TOP.includes(name));

/** Past this a file has a second subject. */
const LONGEST = 420;

const tooLong = (path: string, source: string): string[] => {
  const lines = source.split('\n').length - 1;
  return lines > LONGEST ? [`${path} has ${lines} lines; ${LONGEST} is the most`] : [];
};

describe('the shape of the repository', () => {
  test('only what belongs there lies at the top', () => {
    expect(strangers(topLevelNames())).toEqual([]);
    expect(AT_THE_TOP.filter((name) => !topLevelNames().includes(name))).toEqual([]);
  });

  test('a stranger at the top is found', () => {
    expect(strangers(['README.md', '.npmrc', 'src', 'vite.config.ts'])).toEqual(['src', 'vite.config.ts']);
  });

  test('no source file is long enough to hold two subjects', () => {
    expect(sourceFiles(/\.(tsx?|css|mjs)$/).flatMap((path) => tooLong(path, readFileSync(join(ROOT, path), 'utf8')))).toEqual([]);
  });

  test('a file that is too long is found', () => {
    expect(tooLong('engine/a.ts', '\n'.repeat(LONGEST + 1))).toHaveLength(1);
    expect(tooLong('engine/a.ts', '\n'.repeat(LONGEST))).toEqual([]);
  });
});
