import { buildEdition, editionHash } from '../../engine/walk/index.ts';
import type { Shelf, ShelfTree } from '../data/read-shelf.ts';
import type { SheetEdition } from './sheet-words.ts';

/** Whether the tree as it stands is the edition that is published of it. A tree with pictures is compared without them, so it counts as changed. */
export function sheetEdition(shelved: ShelfTree, shelf: Shelf): SheetEdition {
  const published = shelved.edition?.hash;
  if (published === undefined) return { is: 'not-published' };
  const built = buildEdition(shelved.name, {
    trees: Object.fromEntries(shelf.trees.flatMap(({ name, tree }) => (tree ? [[name, tree]] : []))),
    benches: Object.fromEntries(shelf.benches.flatMap(({ name, bench }) => (bench ? [[name, bench]] : []))),
    figures: {},
  });
  return built.ok && editionHash(built.value) === published ? { is: 'published', hash: published } : { is: 'changed-since', hash: published };
}
