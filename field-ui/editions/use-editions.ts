import { useCallback, useEffect, useRef, useState } from 'react';
import { hasHub } from '../../shared/sync/hub-header.ts';
import { useCrew } from '../crew/use-crew.ts';
import { useField } from '../frame/field-context.ts';
import { type Live, useLive } from '../frame/use-live.ts';
import type { StoredEdition } from '../storage/field-db.ts';
import { type Refreshed, refreshEditions } from './refresh-editions.ts';

export type Editions = {
  /** The listed trees of this device, in the list's order. */
  readonly trees: Live<readonly StoredEdition[]>;
  /** What the last look at the shipped list gave; none while it is under way, and for a device of the crew. */
  readonly refreshed: Refreshed | undefined;
  /** The service has a hub that this device could join. */
  readonly hub: boolean;
  readonly refresh: () => void;
};

/** The trees of this device. Looks for newer ones once a screen with trees opens, and when there is a signal again. */
export function useEditions(): Editions {
  const { db, crew } = useField();
  const { status } = useCrew();
  const trees = useLive(
    useCallback(async () => (await db.editions.toArray()).filter(({ listed }) => listed >= 0).sort((a, b) => a.listed - b.listed), [db]),
  );
  const [refreshed, setRefreshed] = useState<Refreshed>();
  const [hub, setHub] = useState(false);
  const look = useRef<AbortController>(undefined);
  const refresh = useCallback(() => {
    // One look at a time: an older one that ends later must not put its list, or its trouble, in the place of this one's.
    look.current?.abort();
    if (status === 'loading') return;
    setRefreshed(undefined);
    // The crew's list takes the place of the shipped one, and sync brings it.
    if (status === 'joined') {
      crew.nudge();
      return;
    }
    const own = new AbortController();
    look.current = own;
    const { signal } = own;
    const fetchNoting = async (path: string, init?: RequestInit): Promise<Response> => {
      const response = await fetch(path, init);
      if (path === '/editions/index.json' && !signal.aborted) setHub(hasHub(response));
      return response;
    };
    const show = (came: Refreshed): void => {
      if (!signal.aborted) setRefreshed(came);
    };
    refreshEditions(db, fetchNoting, signal).then(show, () => show({ trees: 0, fetched: 0, problems: [] }));
  }, [db, crew, status]);
  useEffect(() => {
    refresh();
    addEventListener('online', refresh);
    return () => {
      removeEventListener('online', refresh);
      look.current?.abort();
    };
  }, [refresh]);
  return { trees, refreshed, hub, refresh };
}
