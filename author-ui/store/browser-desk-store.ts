import { fetchSources } from '../data/fetch-sources.ts';
import { openDeskDb } from './desk-db.ts';
import { DeskStore } from './desk-store.ts';

/** A picture as an address that holds all of it, so that it is kept like any other text. */
const dataAddress = (picture: Blob): Promise<string> =>
  new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => resolve(String(reader.result)));
    reader.addEventListener('error', () => reject(new Error('The picture could not be read.')));
    reader.readAsDataURL(picture);
  });

/** The store of this browser: its storage, its service, and its other windows. Asks the service again whenever the window is come back to. */
export function browserDeskStore(): DeskStore {
  const store = new DeskStore({
    db: openDeskDb(),
    fetchShipped: () => fetchSources((path) => fetch(path), dataAddress),
    now: () => Date.now(),
    channel: new BroadcastChannel('ohmward-desk'),
  });
  void store.start();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void store.refresh();
  });
  window.addEventListener('beforeunload', (event) => {
    if (store.snapshot().save.state !== 'saved') event.preventDefault();
  });
  return store;
}
