import { stringify } from 'yaml';
import { writeTree } from '../../engine/tree/index.ts';
import type { Edition } from '../../engine/walk/index.ts';
import { sameData } from '../data/same-data.ts';
import { benchPath, treePath } from '../store/desk-file.ts';

type Named<T> = Readonly<Record<string, T>>;

/** What `theirs` has and `mine` has otherwise or not at all. */
const differing = <T>(theirs: Named<T>, mine: Named<T>): readonly (readonly [string, T])[] =>
  Object.entries(theirs).filter(([name, value]) => !sameData(mine[name], value));

/**
 * The files to write so that the desk makes this edition, by path. `mine`: what its files make now; a text that means the same already stays
 * as it was written.
 */
export function filesToTake(edition: Edition, mine: Edition): ReadonlyMap<string, string> {
  return new Map([
    ...differing(edition.trees, mine.trees).map(([name, tree]) => [treePath(name), writeTree(tree)] as const),
    ...differing(edition.benches, mine.benches).map(([name, bench]) => [benchPath(name), stringify(bench, { lineWidth: 0 })] as const),
    ...differing(edition.figures, mine.figures),
  ]);
}
