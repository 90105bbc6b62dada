import { useCallback, useEffect, useRef, useState } from 'react';
import type { DeskFile } from '../store/desk-file.ts';
import { sourcesOf } from '../store/sources-of.ts';
import { useDeskSnapshot, useDeskStore } from '../store/use-desk-store.ts';
import type { EditionEntry, FetchProblem } from './fetch-sources.ts';
import type { Shelf } from './read-shelf.ts';
import { readShelfAside } from './read-shelf-aside.ts';

export type LoadProblem = FetchProblem | { readonly code: 'reader-failed'; readonly detail: string };

export type ShelfLoad =
  | { readonly state: 'loading' }
  | { readonly state: 'failed'; readonly problem: LoadProblem }
  | { readonly state: 'ready'; readonly shelf: Shelf };

/** Reading all files takes a while: what changes while one reads is taken up together. */
const PAUSE = 200;

/** Everything that is on the desk, read, and read again when a file changes. Not while `wanted` is false. */
export function useShelf(wanted: boolean): { readonly load: ShelfLoad; readonly retry: () => void } {
  const store = useDeskStore();
  const { load: stored, files, editions } = useDeskSnapshot();
  const [load, setLoad] = useState<ShelfLoad>({ state: 'loading' });
  const shown = useRef<{ readonly files: ReadonlyMap<string, DeskFile>; readonly editions: readonly EditionEntry[] }>(undefined);

  useEffect(() => {
    if (!wanted || stored.state !== 'ready' || (shown.current?.files === files && shown.current.editions === editions)) return;
    let isLatest = true;
    const read = async (): Promise<void> => {
      try {
        const shelf = await readShelfAside(sourcesOf(files, editions));
        if (!isLatest) return;
        shown.current = { files, editions };
        setLoad({ state: 'ready', shelf });
      } catch (error) {
        if (isLatest && !shown.current)
          setLoad({ state: 'failed', problem: { code: 'reader-failed', detail: error instanceof Error ? error.message : String(error) } });
      }
    };
    const waiting = setTimeout(read, shown.current ? PAUSE : 0);
    return () => {
      isLatest = false;
      clearTimeout(waiting);
    };
  }, [wanted, stored.state, files, editions]);

  const retry = useCallback(() => {
    setLoad({ state: 'loading' });
    void store.refresh();
  }, [store]);
  if (stored.state === 'failed' && load.state !== 'ready') return { load: { state: 'failed', problem: stored.problem }, retry };
  return { load, retry };
}
