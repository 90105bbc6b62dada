import { liveQuery } from 'dexie';
import { useEffect, useState } from 'react';
import { type Edition, readEdition } from '../../engine/walk/index.ts';
import type { EditionEntry } from '../data/fetch-sources.ts';
import { openPublicationDb, publicationsOf, type StoredPublication } from './publication-store.ts';

export const publicationDb = openPublicationDb();

export type Publications =
  | { readonly state: 'loading' }
  | { readonly state: 'failed'; readonly detail: string }
  | { readonly state: 'ready'; readonly list: readonly StoredPublication[] };

/** What was published of a tree in this browser, followed as it grows. */
export function usePublications(name: string): Publications {
  const [publications, set] = useState<Publications>({ state: 'loading' });
  useEffect(() => {
    const subscription = liveQuery(() => publicationsOf(publicationDb, name)).subscribe({
      next: (list) => set({ state: 'ready', list }),
      error: (error: unknown) => set({ state: 'failed', detail: error instanceof Error ? error.message : String(error) }),
    });
    return () => subscription.unsubscribe();
  }, [name]);
  return publications;
}

/** The edition that the service ships of a tree. */
export type ShippedEdition =
  | { readonly state: 'none' }
  | { readonly state: 'loading' }
  | { readonly state: 'away' }
  | { readonly state: 'there'; readonly edition: Edition };

/** The edition that the service ships now. Not fetched without an entry. */
export function useShippedEdition(entry: EditionEntry | undefined): ShippedEdition {
  const hash = entry?.hash;
  const [found, set] = useState<{ readonly hash: string; readonly edition: Edition | undefined }>();
  useEffect(() => {
    if (hash === undefined) return;
    let left = false;
    fetch(`/editions/${hash}.json`)
      .then((response) => response.json())
      .then((input: unknown) => readEdition(input))
      .then((read) => !left && set({ hash, edition: read.ok ? read.value : undefined }))
      .catch(() => !left && set({ hash, edition: undefined }));
    return () => {
      left = true;
    };
  }, [hash]);
  if (hash === undefined) return { state: 'none' };
  if (found?.hash !== hash) return { state: 'loading' };
  return found.edition ? { state: 'there', edition: found.edition } : { state: 'away' };
}
