import { expect, test } from 'vitest';
import { importPath, importWords, planImport } from './import-files.ts';

test.each([
  ['no-heat.tree.mdx', 'no-heat.tree.mdx'],
  ['No Heat (2).mdx', 'no-heat-2.tree.mdx'],
  ['heat-call.bench.yaml', 'benches/heat-call.bench.yaml'],
  ['Heat call.yml', 'benches/heat-call.bench.yaml'],
  ['Valve.JPEG', 'figures/valve.jpg'],
  ['???.mdx', 'imported.tree.mdx'],
  ['letter.docx', undefined],
])('%s belongs to %s', (name, path) => expect(importPath(name)).toBe(path));

test('nothing that is here is written over, nor one file of an import by the next', () => {
  const here = new Map([['no-heat.tree.mdx', { text: 'mine' }]]);
  const { writes, outcomes } = planImport(
    [
      { name: 'no-heat.tree.mdx', text: 'mine' },
      { name: 'no-heat.tree.mdx', text: 'yours' },
      { name: 'a.tree.mdx', text: '1' },
      { name: 'A.tree.mdx', text: '2' },
      { name: 'x.exe', text: '' },
      { name: 'trees' },
    ],
    here,
  );
  expect(outcomes.map(({ code }) => code)).toEqual(['same', 'kept-both', 'taken', 'kept-both', 'not-of-here', 'unreadable']);
  expect([...writes]).toEqual([
    ['no-heat-copy.tree.mdx', 'yours'],
    ['a.tree.mdx', '1'],
    ['a-copy.tree.mdx', '2'],
  ]);
  for (const outcome of outcomes) expect(importWords(outcome)).toContain(outcome.name);
});
