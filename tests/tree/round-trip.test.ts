import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_SURROUNDINGS, readTree, treeSchema, writeTree } from '../../engine/tree/index.ts';
import { arbitraryTree } from './arbitrary-tree.ts';
import { SAMPLE_SURROUNDINGS } from './sample-surroundings.ts';
import { SAMPLE } from './sample-tree.ts';

const file = 'any-tree.tree.mdx';

describe('reading and writing', () => {
  it('gives the same tree back, and the same text again', () => {
    fc.assert(
      fc.property(arbitraryTree, (tree) => {
        expect(treeSchema.safeParse(tree).error).toBeUndefined();
        const text = writeTree(tree);
        const { tree: back } = readTree(text, { file, surroundings: NO_SURROUNDINGS });
        expect(back, text).toEqual(tree);
        expect(back && writeTree(back)).toBe(text);
      }),
      { seed: 20, numRuns: 300 },
    );
  }, 180_000);

  it('leaves a tree that was written by hand in canonical form as it is', () => {
    const { tree, problems } = readTree(SAMPLE, { file: 'sample.tree.mdx', surroundings: SAMPLE_SURROUNDINGS });
    expect(problems).toEqual([]);
    expect(tree && writeTree(tree, SAMPLE_SURROUNDINGS)).toBe(SAMPLE);
  });
});
