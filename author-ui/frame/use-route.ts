import { useSyncExternalStore } from 'react';
import { type DeskRoute, readDeskRoute } from '../desk-route.ts';

const listen = (changed: () => void): (() => void) => {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
};

/** The route that the address names now. */
export function useRoute(): DeskRoute {
  return readDeskRoute(useSyncExternalStore(listen, () => window.location.hash));
}
