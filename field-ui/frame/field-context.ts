import { createContext, useContext } from 'react';
import { type AppUpdate, watchForUpdate } from '../device/app-update.ts';
import { EditionStore } from '../storage/edition-store.ts';
import { FieldDb } from '../storage/field-db.ts';
import { type WalkStore, walkStore } from '../storage/walk-store.ts';

/** What the screens work on: made once when the app starts. */
export type Field = { readonly db: FieldDb; readonly store: WalkStore; readonly editions: EditionStore; readonly update: AppUpdate };

export function makeField(): Field {
  const db = new FieldDb();
  const base = import.meta.env.BASE_URL;
  const workers: ServiceWorkerContainer | undefined = import.meta.env.PROD ? navigator.serviceWorker : undefined;
  const update = watchForUpdate(workers, `${base}sw.js`, base);
  return { db, store: walkStore(db), editions: new EditionStore(db), update };
}

export const FieldContext = createContext<Field | undefined>(undefined);

export function useField(): Field {
  const field = useContext(FieldContext);
  if (!field) throw new Error('A screen of the field app stands outside the app.');
  return field;
}
