import { complaintOf, type ShelfTree, titleOf } from '../data/read-shelf.ts';

const plain = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

/** Everything about a tree that a search looks in: titles and names of it, its steps, its faults, and what the complaint says. */
function wordsOf(shelved: ShelfTree): string {
  const { name, tree } = shelved;
  const steps = tree?.steps.flatMap((step) => [step.title, ...(step.kind === 'finding' ? step.faults : [])]) ?? [];
  return plain([name, titleOf(shelved), complaintOf(shelved) ?? '', ...(tree?.benches ?? []), ...steps].join('\n'));
}

/** The trees that hold every word of the query, in their order; all of them where the query is empty. */
export function searchShelf(shelf: readonly ShelfTree[], query: string): readonly ShelfTree[] {
  const words = plain(query)
    .split(/\s+/)
    .filter((word) => word !== '');
  return words.length === 0 ? shelf : shelf.filter((shelved) => words.every((word) => wordsOf(shelved).includes(word)));
}
