import { stepId } from '../../engine/tree/index.ts';
import type { ChosenFile } from '../data/read-chosen.ts';
import { benchPath, freePath, treePath } from '../store/desk-file.ts';

/** What became of an imported file. */
export type ImportOutcome =
  | { readonly code: 'taken'; readonly name: string; readonly path: string }
  /** Another text was under this name already; both are kept. */
  | { readonly code: 'kept-both'; readonly name: string; readonly path: string }
  | { readonly code: 'same'; readonly name: string; readonly path: string }
  | { readonly code: 'not-of-here'; readonly name: string }
  | { readonly code: 'too-large'; readonly name: string }
  | { readonly code: 'unreadable'; readonly name: string };

/** No tree or bench that a person wrote comes near this many letters. */
export const MOST_LETTERS = 4_000_000;

const PICTURE = /\.(png|jpe?g|svg|webp)$/i;

export const isPicture = (name: string): boolean => PICTURE.test(name);

/** Where on the desk a file of this name belongs; undefined where it is of no kind that the desk keeps. */
export function importPath(name: string): string | undefined {
  const slugOf = (ending: RegExp): string => stepId(name.replace(ending, '')) || 'imported';
  if (/\.ya?ml$/i.test(name)) return benchPath(slugOf(/(\.bench)?\.ya?ml$/i));
  if (/\.(mdx|md)$/i.test(name)) return treePath(slugOf(/(\.tree)?\.(mdx|md)$/i));
  const picture = PICTURE.exec(name)?.[1]?.toLowerCase();
  return picture === undefined ? undefined : `figures/${slugOf(PICTURE)}.${picture === 'jpeg' ? 'jpg' : picture}`;
}

/** Which files to write for what is imported, and what to tell of each. No text that is here is written over, whatever an import holds. */
export function planImport(
  imported: readonly ChosenFile[],
  here: ReadonlyMap<string, { readonly text: string }>,
): { readonly writes: ReadonlyMap<string, string>; readonly outcomes: readonly ImportOutcome[] } {
  const writes = new Map<string, string>();
  const outcomes = imported.map(({ name, text }): ImportOutcome => {
    if (text === undefined) return { code: 'unreadable', name };
    const path = importPath(name);
    if (path === undefined) return { code: 'not-of-here', name };
    if (text.length > MOST_LETTERS) return { code: 'too-large', name };
    const there = writes.get(path) ?? here.get(path)?.text;
    if (there === text) return { code: 'same', name, path };
    const to = there === undefined ? path : freePath(path, (other) => writes.has(other) || here.has(other));
    writes.set(to, text);
    return { code: there === undefined ? 'taken' : 'kept-both', name, path: to };
  });
  return { writes, outcomes };
}

/** What became of an imported file, in words. */
export function importWords(outcome: ImportOutcome): string {
  const { name } = outcome;
  switch (outcome.code) {
    case 'taken':
      return `${name} is on the shelf.`;
    case 'kept-both':
      return `${name}: another text has this name here. Both are kept; the one you brought is ${outcome.path}.`;
    case 'same':
      return `${name} is here already, word for word.`;
    case 'not-of-here':
      return `${name} was not taken: the desk keeps trees (.tree.mdx), benches (.bench.yaml) and pictures (.png, .jpg, .svg, .webp).`;
    case 'too-large':
      return `${name} was not taken: it is larger than any tree or bench.`;
    case 'unreadable':
      return `${name} could not be read: it is a folder, or is no longer where it was. Choose it again; of a folder, the files in it.`;
  }
}
