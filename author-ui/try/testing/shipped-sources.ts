import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Edition } from '../../../engine/walk/index.ts';
import type { Sources } from '../../data/fetch-sources.ts';
import { deskEdition } from '../../proof/desk-edition.ts';

const folder = (path: string): string => fileURLToPath(new URL(`../../../trees/${path}`, import.meta.url));

function texts(path: string, ending: string): Readonly<Record<string, string>> {
  return Object.fromEntries(
    readdirSync(folder(path)).flatMap((file) =>
      file.endsWith(ending) ? [[file.slice(0, -ending.length), readFileSync(folder(`${path}/${file}`), 'utf8')]] : [],
    ),
  );
}

/** The trees and benches of the repository, with some texts put in the place of theirs. */
export function shippedSources(trees: Readonly<Record<string, string>> = {}): Sources {
  return { trees: { ...texts('', '.tree.mdx'), ...trees }, benches: texts('benches', '.bench.yaml'), figures: {}, editions: [] };
}

/** A shipped tree as an edition, after a change of its text. */
export function shippedEdition(name: string, change: (text: string) => string = (text) => text): Edition {
  const sources = shippedSources();
  const made = deskEdition(name, { ...sources, trees: { ...sources.trees, [name]: change(sources.trees[name] ?? '') } });
  if (!made.ok) throw new Error(made.problem.problems.find(({ severity }) => severity === 'error')?.message);
  return made.value.edition;
}
