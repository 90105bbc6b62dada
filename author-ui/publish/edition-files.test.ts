import { expect, test } from 'vitest';
import { editionHash } from '../../engine/walk/index.ts';
import { deskEdition } from '../proof/desk-edition.ts';
import { benchOfPath, treeOfPath } from '../store/desk-file.ts';
import { shippedSources } from '../try/testing/shipped-sources.ts';
import { filesToTake } from './edition-files.ts';

const made = (name: string, sources: ReturnType<typeof shippedSources>) => {
  const edition = deskEdition(name, sources);
  if (!edition.ok) throw new Error(JSON.stringify(edition.problem));
  return edition.value.edition;
};

const taken = (sources: ReturnType<typeof shippedSources>, files: ReadonlyMap<string, string>): ReturnType<typeof shippedSources> => {
  const named = (nameOf: (path: string) => string | undefined) =>
    Object.fromEntries([...files].flatMap(([path, text]) => (nameOf(path) === undefined ? [] : [[nameOf(path) ?? '', text]])));
  return { ...sources, trees: { ...sources.trees, ...named(treeOfPath) }, benches: { ...sources.benches, ...named(benchOfPath) } };
};

const sources = shippedSources();

// Every shipped tree, so that whatever a tree or a bench can hold comes back from an edition.
test.each(Object.keys(sources.trees))('the files taken from an edition of %s make that edition again', (name) => {
  const theirs = made(name, sources);
  const nothing = { ...theirs, trees: {}, benches: {}, figures: {} };
  const files = filesToTake(theirs, nothing);
  expect(editionHash(made(name, taken(sources, files)))).toBe(editionHash(theirs));
});

test('only what differs is written', () => {
  const [name = ''] = Object.keys(sources.trees);
  const mine = made(name, sources);
  const tree = mine.trees[name];
  if (!tree) throw new Error('no tree');
  expect(filesToTake(mine, mine).size).toBe(0);
  const files = filesToTake({ ...mine, trees: { ...mine.trees, [name]: { ...tree, title: 'Another title' } } }, mine);
  expect([...files.keys()]).toEqual([`${name}.tree.mdx`]);
  expect(files.get(`${name}.tree.mdx`)).toContain('Another title');
});
