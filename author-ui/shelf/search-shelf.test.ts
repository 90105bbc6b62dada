import { expect, test } from 'vitest';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import type { ShelfTree } from '../data/read-shelf.ts';
import { searchShelf } from './search-shelf.ts';

const { trees } = smallEdition();
const shelf: ShelfTree[] = [
  ...Object.values(trees).map(
    (tree): ShelfTree => ({ name: tree.name, file: `trees/${tree.name}.tree.mdx`, source: '', tree, problems: [], facts: tree.facts }),
  ),
  { name: 'half-written', file: 'trees/half-written.tree.mdx', source: '##', problems: [], facts: {} },
];
const found = (query: string): string[] => searchShelf(shelf, query).map(({ name }) => name);

test('an empty query finds all, in their order', () => {
  expect(found('')).toEqual(['dry-pad', 'supply', 'half-written']);
  expect(found('   ')).toEqual(['dry-pad', 'supply', 'half-written']);
});

test('a word is looked for in titles, complaints, steps, faults and file names, whatever its case', () => {
  expect(found('no WATER')).toEqual(['dry-pad']);
  expect(found('stays dry')).toEqual(['dry-pad']);
  expect(found('coil-open')).toEqual(['dry-pad']);
  expect(found('transformer')).toEqual(['supply']);
  expect(found('half')).toEqual(['half-written']);
});

test('every word must be there', () => {
  expect(found('transformer open line')).toEqual(['supply']);
  expect(found('transformer compressor')).toEqual([]);
});

test('accents do not matter', () => expect(found('TRÄNSFORMER')).toEqual(['supply']));
