import { useMemo } from 'react';
import { useField } from '../frame/field-context.ts';
import { type DrillStore, drillStore } from './drill-store.ts';

/** Drills on this device; one that has ended is offered to the crew's hub at once. */
export function useDrillStore(): DrillStore {
  const { db, crew } = useField();
  return useMemo(() => {
    const store = drillStore(db);
    return {
      ...store,
      keep: async (record, ended) => {
        const kept = await store.keep(record, ended);
        if (kept.ok && ended) crew.nudge();
        return kept;
      },
    };
  }, [db, crew]);
}
