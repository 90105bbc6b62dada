import { expect, test } from 'vitest';
import {
  benchAddress,
  editAddress,
  guideAddress,
  proofAddress,
  publishAddress,
  readDeskRoute,
  treeAddress,
  tryAddress,
  walkAddress,
} from './desk-route.ts';

test.each(['', '#', '#/'])('%j is the shelf', (hash) => expect(readDeskRoute(hash)).toEqual({ at: 'shelf' }));

test('an address of a tree or of a step is read back as it was made', () => {
  expect(readDeskRoute(treeAddress('no-heat'))).toEqual({ at: 'tree', name: 'no-heat' });
  expect(readDeskRoute(treeAddress('no-heat', 'limit-switch'))).toEqual({ at: 'tree', name: 'no-heat', step: 'limit-switch' });
});

test('an address of a bench is read back as it was made', () => {
  expect(readDeskRoute(benchAddress('own-transformer'))).toEqual({ at: 'bench', name: 'own-transformer' });
});

test('the proof and the publishing of a tree have addresses that no step of it can take', () => {
  expect(readDeskRoute(proofAddress('no-heat'))).toEqual({ at: 'proof', name: 'no-heat' });
  expect(readDeskRoute(publishAddress('no-heat'))).toEqual({ at: 'publish', name: 'no-heat' });
  expect(readDeskRoute(guideAddress)).toEqual({ at: 'guide' });
  expect(readDeskRoute(treeAddress('no-heat', 'proof'))).toEqual({ at: 'tree', name: 'no-heat', step: 'proof' });
});

test('a tree is edited or tried from a step, and a step of that name is still one', () => {
  expect(readDeskRoute(editAddress('no-heat', 'limit'))).toEqual({ at: 'edit', name: 'no-heat', step: 'limit' });
  expect(readDeskRoute(tryAddress('no-heat'))).toEqual({ at: 'edit', name: 'no-heat', tries: true });
  expect(readDeskRoute(tryAddress('no-heat', 'limit'))).toEqual({ at: 'edit', name: 'no-heat', step: 'limit', tries: true });
  expect(readDeskRoute(treeAddress('no-heat', 'try'))).toEqual({ at: 'tree', name: 'no-heat', step: 'try' });
});

test.each(['#/bench/', '#/bench/a/b', '#/tree/', '#/tree/A b', '#/tree/../x', '#/walks', '#x'])('%s leads nowhere', (hash) =>
  expect(readDeskRoute(hash)).toEqual({ at: 'nowhere', hash }),
);

test('a walk is the field app', () => expect(walkAddress('no-heat')).toBe('/field/#/tree/no-heat'));
