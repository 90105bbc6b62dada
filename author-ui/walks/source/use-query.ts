import { useSyncExternalStore } from 'react';

const listen = (changed: () => void): (() => void) => {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
};

/** The text behind the `?` of the page's address. */
export const useQuery = (): string => useSyncExternalStore(listen, () => window.location.hash.split('?')[1] ?? '');

/** Writes the text behind the `?` of an address without leaving the page or adding a way back. */
export function replaceQuery(address: string, query: string): void {
  const hash = query === '' ? address : `${address}?${query}`;
  if (window.location.hash === hash) return;
  window.history.replaceState(window.history.state, '', hash);
  window.dispatchEvent(new HashChangeEvent('hashchange'));
}
