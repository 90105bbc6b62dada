import Dexie from 'dexie';
import { fetchEditions } from '../data/fetch-sources.ts';
import { browserDeskStore } from './browser-desk-store.ts';
import { openDeskDb } from './desk-db.ts';
import { DeskPlaces } from './desk-places.ts';
import { deskRescue } from './desk-rescue.ts';
import { openFolderDb } from './folder/folder-db.ts';

/** How often an open folder is looked at for what other programs did, ms. */
const LOOK = 2500;

/** The desk's places in this browser. An open folder is looked at again and again while the window is seen. */
export function browserDeskPlaces(): DeskPlaces {
  const places = new DeskPlaces({
    folders: openFolderDb(),
    browserStore: browserDeskStore,
    openDb: openDeskDb,
    openChannel: (name) => new BroadcastChannel(name),
    deleteDb: (name) => Dexie.delete(name),
    rescueOf: (name) => deskRescue(localStorage, name, crypto.randomUUID()),
    fetchEditions: async () => {
      const editions = await fetchEditions((path) => fetch(path));
      return editions.ok ? editions.value : [];
    },
    now: () => Date.now(),
    newId: () => crypto.randomUUID(),
    alone: (name) => (work) => navigator.locks.request(name, work),
    later: (work, ms) => {
      const waiting = setTimeout(work, ms);
      return () => clearTimeout(waiting);
    },
  });
  void places.start();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void places.refresh();
    // Whoever looks at the files next, in whatever program, is to find them written.
    else if (places.snapshot().at === 'folder') void places.writeNow();
  });
  const look = async (): Promise<void> => {
    const place = places.snapshot();
    if (place.at === 'folder' && document.visibilityState === 'visible' && place.folder.sync.snapshot().state.at === 'ready') await places.refresh();
    setTimeout(look, LOOK);
  };
  setTimeout(look, LOOK);
  window.addEventListener('beforeunload', (event) => {
    // What is being saved is taken up again by the next window; what cannot be saved may be lost.
    if (places.isFailing) event.preventDefault();
  });
  window.addEventListener('pagehide', () => places.leave());
  return places;
}
