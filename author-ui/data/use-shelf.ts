import { useCallback, useEffect, useRef, useState } from 'react';
import { type FetchProblem, fetchSources, type Sources } from './fetch-sources.ts';
import type { Shelf } from './read-shelf.ts';
import { readShelfAside } from './read-shelf-aside.ts';

export type LoadProblem = FetchProblem | { readonly code: 'reader-failed'; readonly detail: string };

export type ShelfLoad =
  | { readonly state: 'loading' }
  | { readonly state: 'failed'; readonly problem: LoadProblem }
  | { readonly state: 'ready'; readonly shelf: Shelf };

const forget = (sources: Sources | undefined): void => {
  for (const address of Object.values(sources?.figures ?? {})) URL.revokeObjectURL(address);
};

const sameTexts = (a: Sources, b: Sources): boolean => {
  const texts = ({ trees, benches, editions, figures }: Sources): string => JSON.stringify([trees, benches, editions, Object.keys(figures)]);
  return texts(a) === texts(b);
};

/** The shelf, read when the desk opens and again whenever its window is come back to: the files may have been edited meanwhile. */
export function useShelf(): { readonly load: ShelfLoad; readonly retry: () => void } {
  const [load, setLoad] = useState<ShelfLoad>({ state: 'loading' });
  const latest = useRef(0);
  const shown = useRef<Sources>(undefined);

  const read = useCallback(async () => {
    latest.current += 1;
    const mine = latest.current;
    const sources = await fetchSources(
      (path) => fetch(path),
      (picture) => URL.createObjectURL(picture),
    );
    const before = shown.current;
    if (!sources.ok) {
      // What is on screen stays there when a later look fails: it was true a moment ago, and nothing is lost by showing it.
      if (mine === latest.current && !before) setLoad({ state: 'failed', problem: sources.problem });
      return;
    }
    if (mine !== latest.current || (before && sameTexts(before, sources.value))) {
      forget(sources.value);
      return;
    }
    try {
      const shelf = await readShelfAside(sources.value);
      if (mine !== latest.current) return forget(sources.value);
      shown.current = sources.value;
      setLoad({ state: 'ready', shelf });
      forget(before);
    } catch (error) {
      forget(sources.value);
      if (!before) setLoad({ state: 'failed', problem: { code: 'reader-failed', detail: error instanceof Error ? error.message : String(error) } });
    }
  }, []);

  const retry = useCallback(() => {
    setLoad({ state: 'loading' });
    void read();
  }, [read]);

  useEffect(() => {
    const readIfVisible = (): void => {
      if (document.visibilityState === 'visible') void read();
    };
    void read();
    document.addEventListener('visibilitychange', readIfVisible);
    return () => document.removeEventListener('visibilitychange', readIfVisible);
  }, [read]);

  return { load, retry };
}
