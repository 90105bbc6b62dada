import { loadShippedEditions } from '../../engine/cli/shipped-editions.ts';
import type { Problem } from '../../engine/problem.ts';
import type { Edition } from '../../engine/walk/index.ts';
import { sourcesFingerprint } from './tree-sources.ts';

/** One line of the list of editions: what a screen needs to offer a tree without fetching it. */
export type EditionEntry = {
  readonly hash: string;
  readonly name: string;
  readonly title: string;
  readonly complaint: string;
  /** Steps of the tree that a walk opens; those of trees it leads to are not counted. */
  readonly steps: number;
};

export type EditionShelf = {
  /** The editions that the trees folder makes now, and what is wrong with the trees that make none. */
  current(): Promise<{ readonly entries: readonly EditionEntry[]; readonly problems: readonly Problem[] }>;
  /** The canonical text of an edition by its hash: of now, or of an earlier look at the folder. */
  text(hash: string): Promise<string | undefined>;
};

type Look = { readonly fingerprint: string; readonly entries: readonly EditionEntry[]; readonly problems: readonly Problem[] };

function entryOf(hash: string, edition: Edition): EditionEntry | undefined {
  const tree = edition.trees[edition.root];
  return tree && { hash, name: tree.name, title: tree.title, complaint: tree.complaint, steps: tree.steps.length };
}

/** Editions of a trees folder, compiled when the folder has changed and kept otherwise. */
export function editionShelf(treesDir: string): EditionShelf {
  const texts = new Map<string, string>();
  let look: Look | undefined;
  let looking: Promise<Look> | undefined;

  async function lookAgain(fingerprint: string): Promise<Look> {
    const { editions, problems } = await loadShippedEditions(treesDir);
    const entries: EditionEntry[] = [];
    for (const { hash, edition } of editions) {
      const entry = entryOf(hash, edition);
      if (!entry) continue;
      entries.push(entry);
      if (!texts.has(hash)) texts.set(hash, JSON.stringify(edition));
    }
    return { fingerprint, entries: entries.sort((a, b) => (a.title < b.title ? -1 : 1)), problems };
  }

  async function current(): Promise<Look> {
    const fingerprint = await sourcesFingerprint(treesDir);
    if (look?.fingerprint === fingerprint) return look;
    looking ??= lookAgain(fingerprint).finally(() => {
      looking = undefined;
    });
    look = await looking;
    return look;
  }

  return {
    current,
    async text(hash) {
      if (!texts.has(hash)) await current();
      return texts.get(hash);
    },
  };
}
