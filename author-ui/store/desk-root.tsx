import { createContext, type ReactNode, useContext, useSyncExternalStore } from 'react';
import type { DeskPlace, DeskPlaces, OpenFolder } from './desk-places.ts';
import type { FolderSnapshot } from './folder/folder-sync.ts';
import { DeskStoreContext } from './use-desk-store.ts';

type Here = { readonly places: DeskPlaces; readonly place: Exclude<DeskPlace, { at: 'looking' }> };

const PlaceContext = createContext<Here | undefined>(undefined);

/** Gives the desk the store of the place where its files are; everything in it begins anew when the place changes. */
export function DeskRoot({ places, children }: { readonly places: DeskPlaces; readonly children: ReactNode }) {
  const place = useSyncExternalStore(places.subscribe, places.snapshot);
  if (place.at === 'looking') return null;
  return (
    <PlaceContext value={{ places, place }}>
      <DeskStoreContext key={place.at === 'folder' ? place.folder.id : 'browser'} value={place.store}>
        {children}
      </DeskStoreContext>
    </PlaceContext>
  );
}

/** Where the desk's files are, and how to change that. */
export function useDeskPlace(): Here {
  const here = useContext(PlaceContext);
  if (!here) throw new Error('This part of the desk stands only inside a DeskRoot.');
  return here;
}

const NO_FOLDER: FolderSnapshot = { state: { at: 'ready' }, conflicts: [], waiting: [], leftAlone: [] };
const never = (): (() => void) => () => undefined;

/** The open folder and how it stands; undefined where the files are in this browser. */
export function useFolder(): { readonly folder: OpenFolder; readonly now: FolderSnapshot } | undefined {
  const { place } = useDeskPlace();
  const folder = place.at === 'folder' ? place.folder : undefined;
  const now = useSyncExternalStore(folder?.sync.subscribe ?? never, folder?.sync.snapshot ?? (() => NO_FOLDER));
  return folder && { folder, now };
}
