import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { wrongImports } from './import-rules.ts';
import { ROOT, sourceFiles } from './repo-files.ts';

describe('imports point one way', () => {
  test('in every source file', () => {
    const files = sourceFiles(/\.tsx?$/);
    expect(files.length).toBeGreaterThan(50);
    expect(files.flatMap((path) => wrongImports(path, readFileSync(join(ROOT, path), 'utf8')))).toEqual([]);
  });
});

describe('the check finds', () => {
  test.each([
    ['a folder that reaches up', 'engine/quantity/a.ts', `import { x } from '../formula/index.ts';`],
    ['a folder that reaches beside itself', 'engine/bench/a.ts', `import type { Tree } from '../tree/index.ts';`],
    ['a folder entered past its index', 'engine/walk/a.ts', `import { x } from '../tree/tree.ts';`],
    ['an app entering past the index', 'field-ui/a.ts', `import { x } from '../engine/tree/tree.ts';`],
    ['the engine importing an app', 'engine/walk/a.ts', `export { x } from '../../field-ui/a.ts';`],
    ['the engine importing what is shared', 'engine/cli/a.ts', `import x from '../../shared/ui/a.ts';`],
    ['what is shared importing an app', 'shared/ui/a.ts', `const x = await import('../../author-ui/a.ts');`],
    ['one app importing the other', 'field-ui/a.tsx', `import x from '../author-ui/a.tsx';`],
    ['an app importing the command line', 'author-ui/a.ts', `import x from '../engine/cli/index.ts';`],
    ['node in the engine', 'engine/tree/a.ts', `import { readFileSync } from 'node:fs';`],
    ['node in an app', 'field-ui/screens/a.tsx', `import { join } from 'node:path';`],
    ['a screen library in the engine', 'engine/walk/a.ts', `import { useState } from 'react';`],
    ['tests imported by what they test', 'engine/walk/a.ts', `import x from '../../tests/outside/a.ts';`],
    ['what helps tests imported by the rest', 'engine/proof/a.ts', `import x from '../walk/testing/small-edition.ts';`],
    ['a type imported in place', 'engine/quantity/a.ts', `export type X = import('../walk/index.ts').Walk;`],
    ['an export from above', 'engine/formula/a.ts', `export * from '../trade/index.ts';`],
  ])('%s', (_what, path, source) => {
    const [wrong, ...more] = wrongImports(path, `// first line\n${source}\n`);
    expect(wrong).toContain(`${path}:2 ${source}`);
    expect(more).toEqual([]);
  });

  test('nothing in what is allowed', () => {
    const allowed: [string, string][] = [
      [
        'engine/walk/a.ts',
        `import { treeSchema } from '../tree/index.ts'; import { success } from '../result.ts'; import x from './b.ts'; import { z } from 'zod';`,
      ],
      ['engine/cli/a.ts', `import { readFileSync } from 'node:fs'; import { x } from '../walk/index.ts'; import { Command } from 'commander';`],
      ['shared/crew/serve.ts', `import { loadShippedEditions } from '../../engine/cli/shipped-editions.ts'; import fastify from 'fastify';`],
      [
        'author-ui/a.tsx',
        `import { Prose } from '../shared/ui/prose.tsx'; import type { Problem } from '../engine/problem.ts'; import { useState } from 'react';`,
      ],
      ['author-ui/a.test.ts', `import { smallEdition } from '../engine/walk/testing/small-edition.ts';`],
      ['engine/bench/a.test.ts', `import values from '../../tests/outside/values.json';`],
    ];
    for (const [path, source] of allowed) expect(wrongImports(path, source)).toEqual([]);
  });
});
