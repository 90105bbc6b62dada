import type { Problem } from '../problem.ts';
import { buildEdition, type Edition, editionHash } from '../walk/index.ts';
import { treeProblems } from './check.ts';
import { TreeFolder, treeName } from './tree-folder.ts';

export type ShippedEdition = { readonly hash: string; readonly edition: Edition };

/** Compiles every tree of a folder in which `check` finds no error into an edition; the problems of all of them are given too. */
export async function loadShippedEditions(
  folder: string,
): Promise<{ readonly editions: readonly ShippedEdition[]; readonly problems: readonly Problem[] }> {
  const trees = new TreeFolder(folder);
  const editions: ShippedEdition[] = [];
  const problems: Problem[] = [];
  for (const file of trees.treeFiles()) {
    const found = treeProblems(trees, treeName(file));
    problems.push(...found);
    if (found.some((p) => p.severity === 'error')) continue;
    const edition = buildEdition(treeName(file), trees.sources(treeName(file)));
    if (edition.ok) editions.push({ hash: editionHash(edition.value), edition: edition.value });
    else problems.push(notBuilt(file, JSON.stringify(edition.problem)));
  }
  return { editions, problems };
}

const notBuilt = (file: string, detail: string): Problem => ({
  severity: 'error',
  code: 'not-an-edition',
  message: `No edition can be made of this tree: ${detail}`,
  file,
  line: 1,
  column: 1,
  fix: 'Put right what it names, in this file or beside it.',
});
