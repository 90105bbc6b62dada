import { createContext, useContext } from 'react';
import { CrewLink } from '../crew/crew-link.ts';
import { pauseBetween } from '../crew/pause-between.ts';
import { type AppUpdate, watchForUpdate } from '../device/app-update.ts';
import { EditionStore } from '../storage/edition-store.ts';
import { FieldDb } from '../storage/field-db.ts';
import { type WalkStore, walkStore } from '../storage/walk-store.ts';

/** What the screens work on: made once when the app starts. */
export type Field = {
  readonly db: FieldDb;
  readonly store: WalkStore;
  readonly editions: EditionStore;
  readonly update: AppUpdate;
  readonly crew: CrewLink;
};

export function makeField(): Field {
  const db = new FieldDb();
  const base = import.meta.env.BASE_URL;
  const workers: ServiceWorkerContainer | undefined = import.meta.env.PROD ? navigator.serviceWorker : undefined;
  const update = watchForUpdate(workers, `${base}sw.js`, base);
  const crew = new CrewLink(db, {
    fetch: (path, init) => fetch(path, init),
    now: Date.now,
    random: Math.random,
    wait: pauseBetween,
    isOnline: () => navigator.onLine,
  });
  crew.start();
  addEventListener('online', crew.nudge);
  return { db, store: sendingStore(walkStore(db), crew), editions: new EditionStore(db), update, crew };
}

/** Each line is on the disk first; then the crew's hub may have it. */
function sendingStore(store: WalkStore, crew: CrewLink): WalkStore {
  return {
    ...store,
    append: async (...line) => {
      const written = await store.append(...line);
      if (written.ok) crew.nudge();
      return written;
    },
  };
}

export const FieldContext = createContext<Field | undefined>(undefined);

export function useField(): Field {
  const field = useContext(FieldContext);
  if (!field) throw new Error('A screen of the field app stands outside the app.');
  return field;
}
