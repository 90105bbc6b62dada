import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { documentedNames } from './documented-names.ts';
import { ROOT, topLevelNames } from './repo-files.ts';

const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');
const SCRIPTS = Object.keys((JSON.parse(read('package.json')) as { scripts: Record<string, string> }).scripts);
const DOCS = ['README.md', 'DEVELOPERS.md', 'trees/README.md'];

const unknownScripts = (text: string): string[] => documentedNames(text, []).scripts.filter((name) => !SCRIPTS.includes(name));
const missingPaths = (text: string, from = ''): string[] =>
  documentedNames(text, topLevelNames()).paths.filter((path) => !existsSync(join(ROOT, path)) && !existsSync(join(ROOT, from, path)));

describe.each(DOCS)('%s', (doc) => {
  test('names only scripts that there are', () => expect(unknownScripts(read(doc))).toEqual([]));

  test('names only places that there are', () => expect(missingPaths(read(doc), join(doc, '..'))).toEqual([]));
});

describe('README.md', () => {
  test('opens with the job and names both commands', () => {
    const { commands } = documentedNames(read('README.md'), topLevelNames());
    expect(commands).toContain('npm start');
    expect(commands).toContain('npm test');
  });
});

describe('the check finds', () => {
  test('a script that is gone', () => expect(unknownScripts('Run `npm run polish`, then `npm test`.')).toEqual(['polish']));

  test('a script that is gone in a fenced block', () => {
    const text = 'Type:\n\n```sh\nnpm run -s gone -- check\n```\n';
    expect(unknownScripts(text)).toEqual(['gone']);
    expect(documentedNames(text, []).commands).toEqual(['npm run -s gone -- check']);
  });

  test('a path that is gone', () =>
    expect(missingPaths('See `engine/nowhere/index.ts` and `engine/result.ts`.')).toEqual(['engine/nowhere/index.ts']));

  test('a link that leads nowhere', () => expect(missingPaths('See [the manual](trees/MANUAL.md).')).toEqual(['trees/MANUAL.md']));

  test('nothing in placeholders, addresses and things that are made', () =>
    expect(missingPaths('`engine/<folder>/index.ts` `trees/NAME.tree.mdx` `.build/field` [x](https://example.org/a) `tests/**`')).toEqual([]));
});
