import { createContext, useContext, useSyncExternalStore } from 'react';
import type { DeskFile } from './desk-file.ts';
import type { DeskSnapshot, DeskStore } from './desk-store.ts';

export const DeskStoreContext = createContext<DeskStore | undefined>(undefined);

/** The desk's files and what can be done with them. */
export function useDeskStore(): DeskStore {
  const store = useContext(DeskStoreContext);
  if (!store) throw new Error('This part of the desk stands only inside a DeskStoreContext.');
  return store;
}

/** Everything that the store shows, followed as it changes. */
export function useDeskSnapshot(): DeskSnapshot {
  const store = useDeskStore();
  return useSyncExternalStore(store.subscribe, store.snapshot);
}

/** All files by path. The same map until one of them changes. */
export const useDeskFiles = (): ReadonlyMap<string, DeskFile> => useDeskSnapshot().files;

/** One file; undefined where there is none under this path. */
export const useDeskFile = (path: string): DeskFile | undefined => useDeskFiles().get(path);
