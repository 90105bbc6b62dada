import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { NO_SURROUNDINGS, readTree, treeSchema, writeTree } from '../../engine/tree/index.ts';

const FOLDER = new URL('../../trees/', import.meta.url);
const FILES = readdirSync(FOLDER).filter((file) => file.endsWith('.tree.mdx'));

describe.each(FILES)('%s', (file) => {
  const { tree } = readTree(readFileSync(new URL(file, FOLDER), 'utf8'), { file, surroundings: NO_SURROUNDINGS });

  it('is a tree as the schema has it', () => {
    expect(treeSchema.safeParse(tree).error).toBeUndefined();
  });

  it('is the same tree when it is written and read again', () => {
    if (!tree) throw new Error('It does not read.');
    expect(readTree(writeTree(tree), { file, surroundings: NO_SURROUNDINGS }).tree).toEqual(tree);
  });
});
