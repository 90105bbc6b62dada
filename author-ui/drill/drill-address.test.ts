import { expect, test } from 'vitest';
import { readDeskRoute } from '../desk-route.ts';
import { drillsAddressFor, drillsAskedIn } from './drill-address.ts';

test('an address of a drill to be made, or of a result, is read back as it was made', () => {
  for (const asked of [
    { tree: 'no-heat', bench: 'own', fault: 'coil-open' },
    { drill: 'a b/c', run: 'run-1' },
  ]) {
    const route = readDeskRoute(drillsAddressFor(asked));
    expect(route.at === 'drills' && drillsAskedIn(route.query ?? '')).toEqual(asked);
  }
  expect(drillsAskedIn('x=1&tree=')).toEqual({});
});
