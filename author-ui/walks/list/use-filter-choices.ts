import { useEffect, useMemo, useState } from 'react';
import type { WalkSummary } from '../../../shared/sync/wire/walk-wire.ts';
import { useDeskHub } from '../../crew/desk-hub.tsx';
import { useDeskSnapshot } from '../../store/use-desk-store.ts';
import { plainName } from '../walk-words.ts';
import type { FilterChoices } from './filter-form.tsx';

/** What lists can be filtered by: what the crew has, and whatever is on the lists as loaded. */
export function useFilterChoices(loaded: readonly WalkSummary[]): FilterChoices {
  const hub = useDeskHub();
  const { editions } = useDeskSnapshot();
  const reviews = hub.state === 'joined' && hub.me.person.role !== 'tech';
  const [people, setPeople] = useState<FilterChoices['people']>([]);
  const { client } = hub;
  useEffect(() => {
    if (!reviews) return;
    let left = false;
    // Where it does not answer, those on the list are still to be chosen from.
    void client.people().then((answer) => answer.ok && !left && setPeople(answer.value.people.map(({ id, name }) => ({ id, name }))));
    return () => {
      left = true;
    };
  }, [client, reviews]);
  return useMemo(() => choicesOf(loaded, editions, people), [loaded, editions, people]);
}

type Listed = { readonly hash: string; readonly name: string; readonly title: string };

/** Every tree, edition and person once, in the order of their names. */
function choicesOf(loaded: readonly WalkSummary[], editions: readonly Listed[], people: FilterChoices['people']): FilterChoices {
  const trees = new Map(editions.map(({ name, title }) => [name, title]));
  const hashes = new Map(editions.map(({ hash, name }) => [hash, name]));
  const names = new Map(people.map(({ id, name }) => [id, name]));
  for (const { tree, title, edition, person, personName } of loaded) {
    if (tree !== undefined && !trees.has(tree)) trees.set(tree, title ?? plainName(tree));
    if (tree !== undefined && !hashes.has(edition)) hashes.set(edition, tree);
    if (person !== '' && !names.has(person)) names.set(person, personName);
  }
  return {
    trees: [...trees].map(([name, title]) => ({ name, title })).sort((a, b) => a.title.localeCompare(b.title)),
    editions: [...hashes].map(([hash, tree]) => ({ hash, tree })),
    people: [...names].map(([id, name]) => ({ id, name })).sort((a, b) => a.name.localeCompare(b.name)),
  };
}
