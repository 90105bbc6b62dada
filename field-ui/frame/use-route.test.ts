import { expect, it } from 'vitest';
import { hrefOf, type Route, routeOf } from './use-route.ts';

it.each<Route>([
  { screen: 'start' },
  { screen: 'join' },
  { screen: 'join', code: 'AB2CD-EF3GH' },
  { screen: 'tree', edition: 'abc' },
  { screen: 'walk', walk: 'walk-1' },
  { screen: 'report', walk: 'walk-1' },
  { screen: 'drills' },
  { screen: 'drill', run: 'run-1' },
])('finds $screen again by its address', (route) => expect(routeOf(hrefOf(route))).toEqual(route));

it.each(['', '#', '#/', '#/nowhere', '#/walk/', '#/tree', '#/%00'])('starts at the start for %j', (hash) => {
  expect(routeOf(hash)).toEqual({ screen: 'start' });
});
