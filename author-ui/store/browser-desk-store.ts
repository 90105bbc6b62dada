import { fetchSources } from '../data/fetch-sources.ts';
import { openDeskDb } from './desk-db.ts';
import { deskRescue } from './desk-rescue.ts';
import { DeskStore } from './desk-store.ts';

/** A picture as an address that holds all of it, so that it is kept like any other text. */
const dataAddress = (picture: Blob): Promise<string> =>
  new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => resolve(String(reader.result)));
    reader.addEventListener('error', () => reject(new Error('The picture could not be read.')));
    reader.readAsDataURL(picture);
  });

/** The store of the files that are kept in this browser: its storage, its service, and its other windows. It is started by who opens it. */
export const browserDeskStore = (): DeskStore =>
  new DeskStore({
    db: openDeskDb(),
    fetchShipped: () => fetchSources((path) => fetch(path), dataAddress),
    now: () => Date.now(),
    rescue: deskRescue(localStorage, 'ohmward-desk', crypto.randomUUID()),
    channel: new BroadcastChannel('ohmward-desk'),
  });
