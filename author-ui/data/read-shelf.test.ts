import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Sources } from './fetch-sources.ts';
import { readShelf, titleOf } from './read-shelf.ts';

const NONE: Sources = { trees: {}, benches: {}, figures: {}, editions: [] };

const small = (title: string, target = '#stop'): string => `---
title: ${title}
complaint: It hums.
recheck: first is hums not
handoff: stop
---

<Caution signal="warning" about="line-voltage">

Power off before a hand goes in.

</Caution>

## First

<Look at="the unit" />

<Next>

- hums: [Stop](#stop)
- hums not: [Next](${target})

</Next>

## Stop

<Handoff to="the senior tech" />
`;

describe('a shelf', () => {
  test('is in order of title, and keeps what cannot be read with its problems', () => {
    const { trees } = readShelf({ ...NONE, trees: { b: small('Zebra'), a: small('Ant'), broken: '---\ntitle: [\n---\n' } });
    expect(trees.map(titleOf)).toEqual(['Ant', 'broken', 'Zebra']);
    const broken = trees.find(({ name }) => name === 'broken');
    expect(broken?.tree).toBeUndefined();
    expect(broken?.problems.length).toBeGreaterThan(0);
    expect(broken?.problems.every(({ file }) => file === 'trees/broken.tree.mdx')).toBe(true);
  });

  test('knows the other trees that a tree leads to, and that one is not there', () => {
    const codes = (sources: Sources): string[] =>
      readShelf(sources)
        .trees.find(({ name }) => name === 'a')
        ?.problems.map(({ code }) => code) ?? [];
    expect(codes({ ...NONE, trees: { a: small('Ant', 'b.tree.mdx#first'), b: small('Bee') } })).not.toContain('missing-target');
    expect(codes({ ...NONE, trees: { a: small('Ant', 'b.tree.mdx#elsewhere'), b: small('Bee') } })).toContain('missing-target');
    expect(codes({ ...NONE, trees: { a: small('Ant', 'b.tree.mdx#first') } })).toContain('missing-target');
  });

  test('puts each edition to the tree of its name', () => {
    const edition = { hash: 'f'.repeat(64), name: 'b', title: 'Zebra', complaint: 'It hums.', steps: 2 };
    const { trees } = readShelf({ ...NONE, trees: { a: small('Ant'), b: small('Zebra') }, editions: [edition] });
    expect(trees.map((tree) => tree.edition)).toEqual([undefined, edition]);
  });

  test('of the shipped files has no errors, and finds the facts of each tree and its benches', () => {
    const folder = new URL('../../trees/', import.meta.url);
    const texts = (at: URL, end: string): Record<string, string> =>
      Object.fromEntries(
        readdirSync(at)
          .filter((file) => file.endsWith(end))
          .map((file) => [file.slice(0, -end.length), readFileSync(new URL(file, at), 'utf8')]),
      );
    const sources = { ...NONE, trees: texts(folder, '.tree.mdx'), benches: texts(new URL('benches/', folder), '.bench.yaml') };
    const { trees } = readShelf(sources);
    expect(trees.length).toBe(Object.keys(sources.trees).length);
    expect(trees.flatMap(({ problems }) => problems.filter(({ severity }) => severity === 'error'))).toEqual([]);
    const flagship = trees.find(({ name }) => name === 'no-water-at-the-pad');
    expect(Object.keys(flagship?.facts ?? {})).toEqual(expect.arrayContaining(['coil-rated', 'line-volts', 'outdoor', 'run', 'wiring']));
  });
});
