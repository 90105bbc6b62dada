import { useSyncExternalStore } from 'react';

/** The screens, each with its address after `#/`. */
export type Route =
  | { readonly screen: 'start' }
  | { readonly screen: 'join'; readonly code?: string }
  | { readonly screen: 'tree'; readonly edition: string }
  | { readonly screen: 'walk'; readonly walk: string }
  | { readonly screen: 'report'; readonly walk: string }
  | { readonly screen: 'drills' }
  | { readonly screen: 'drill'; readonly run: string };

export function routeOf(hash: string): Route {
  const [screen, id, part] = hash.replace(/^#?\/?/, '').split('/');
  if (screen === 'join') return id ? { screen, code: id.slice(0, 100) } : { screen };
  if (screen === 'tree' && id) return { screen, edition: id };
  if (screen === 'walk' && id) return part === 'report' ? { screen: 'report', walk: id } : { screen, walk: id };
  if (screen === 'drills') return { screen };
  if (screen === 'drill' && id) return { screen, run: id };
  return { screen: 'start' };
}

export function hrefOf(route: Route): string {
  switch (route.screen) {
    case 'start':
      return '#/';
    case 'join':
      return route.code === undefined ? '#/join' : `#/join/${route.code}`;
    case 'tree':
      return `#/tree/${route.edition}`;
    case 'walk':
      return `#/walk/${route.walk}`;
    case 'report':
      return `#/walk/${route.walk}/report`;
    case 'drills':
      return '#/drills';
    case 'drill':
      return `#/drill/${route.run}`;
  }
}

export const go = (route: Route): void => {
  location.hash = hrefOf(route);
};

const subscribe = (listener: () => void): (() => void) => {
  addEventListener('hashchange', listener);
  return () => removeEventListener('hashchange', listener);
};

export function useRoute(): Route {
  return routeOf(useSyncExternalStore(subscribe, () => location.hash));
}
