import type { EditionEntry, Sources } from '../data/fetch-sources.ts';
import { benchOfPath, type DeskFile, isFigure, treeOfPath } from './desk-file.ts';

/** The desk's files as the readers of trees and benches take them. Files of no known kind are left out. */
export function sourcesOf(files: ReadonlyMap<string, DeskFile>, editions: readonly EditionEntry[]): Sources {
  const named = (nameOf: (path: string) => string | undefined): Record<string, string> =>
    Object.fromEntries(
      [...files.values()].flatMap(({ path, text }) => {
        const name = nameOf(path);
        return name === undefined ? [] : [[name, text]];
      }),
    );
  return { trees: named(treeOfPath), benches: named(benchOfPath), figures: named((path) => (isFigure(path) ? path : undefined)), editions };
}
