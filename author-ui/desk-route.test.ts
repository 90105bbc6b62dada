import { expect, test } from 'vitest';
import {
  benchAddress,
  crewAddress,
  drillsAddress,
  editAddress,
  guideAddress,
  joinAddress,
  pictureAddress,
  proofAddress,
  publishAddress,
  readDeskRoute,
  sheetAddress,
  treeAddress,
  tryAddress,
  walkAddress,
  walkPageAddress,
  walksAddress,
} from './desk-route.ts';

test.each(['', '#', '#/'])('%j is the shelf', (hash) => expect(readDeskRoute(hash)).toEqual({ at: 'shelf' }));

test('an address of a tree or of a step is read back as it was made', () => {
  expect(readDeskRoute(treeAddress('no-heat'))).toEqual({ at: 'tree', name: 'no-heat' });
  expect(readDeskRoute(treeAddress('no-heat', 'limit-switch'))).toEqual({ at: 'tree', name: 'no-heat', step: 'limit-switch' });
});

test('an address of a bench is read back as it was made', () => {
  expect(readDeskRoute(benchAddress('own-transformer'))).toEqual({ at: 'bench', name: 'own-transformer' });
});

test('the proof, the publishing and the sheet of a tree have addresses that no step of it can take', () => {
  expect(readDeskRoute(proofAddress('no-heat'))).toEqual({ at: 'proof', name: 'no-heat' });
  expect(readDeskRoute(publishAddress('no-heat'))).toEqual({ at: 'publish', name: 'no-heat' });
  expect(readDeskRoute(sheetAddress('no-heat'))).toEqual({ at: 'sheet', name: 'no-heat' });
  expect(readDeskRoute(treeAddress('no-heat', 'sheet'))).toEqual({ at: 'tree', name: 'no-heat', step: 'sheet' });
  expect(readDeskRoute(guideAddress)).toEqual({ at: 'guide' });
  expect(readDeskRoute(treeAddress('no-heat', 'proof'))).toEqual({ at: 'tree', name: 'no-heat', step: 'proof' });
});

test('walks, drills and the crew have pages; what the crew’s walks show of a tree has one that no step can take', () => {
  expect(readDeskRoute(walksAddress)).toEqual({ at: 'walks' });
  expect(readDeskRoute(walkPageAddress('a walk/of 1'))).toEqual({ at: 'walk', walk: 'a walk/of 1' });
  expect(readDeskRoute(drillsAddress)).toEqual({ at: 'drills' });
  expect(readDeskRoute(crewAddress)).toEqual({ at: 'crew' });
  expect(readDeskRoute(pictureAddress('no-heat'))).toEqual({ at: 'tree-picture', name: 'no-heat' });
  expect(readDeskRoute(treeAddress('no-heat', 'crew'))).toEqual({ at: 'tree', name: 'no-heat', step: 'crew' });
});

test('a link of an invitation leads to joining, with its code', () => {
  expect(readDeskRoute(joinAddress)).toEqual({ at: 'join' });
  expect(readDeskRoute(`${joinAddress}/ABCDE-FGHJK`)).toEqual({ at: 'join', code: 'ABCDE-FGHJK' });
});

test('a tree is edited or tried from a step, and a step of that name is still one', () => {
  expect(readDeskRoute(editAddress('no-heat', 'limit'))).toEqual({ at: 'edit', name: 'no-heat', step: 'limit' });
  expect(readDeskRoute(tryAddress('no-heat'))).toEqual({ at: 'edit', name: 'no-heat', tries: true });
  expect(readDeskRoute(tryAddress('no-heat', 'limit'))).toEqual({ at: 'edit', name: 'no-heat', step: 'limit', tries: true });
  expect(readDeskRoute(treeAddress('no-heat', 'try'))).toEqual({ at: 'tree', name: 'no-heat', step: 'try' });
});

test.each([
  '#/bench/',
  '#/bench/a/b',
  '#/tree/',
  '#/tree/A b',
  '#/tree/../x',
  '#/walk',
  '#/walks/',
  '#/walks/a/b',
  '#/walks/%E0%A4%A',
  '#/join/a b',
  '#/crew/x',
  '#x',
])('%s leads nowhere', (hash) => expect(readDeskRoute(hash)).toEqual({ at: 'nowhere', hash }));

test('a walk is the field app', () => expect(walkAddress('no-heat')).toBe('/field/#/tree/no-heat'));

test('what a page of walks is asked to show stands behind its address', () => {
  expect(readDeskRoute(`${walksAddress}?tree=no-heat`)).toEqual({ at: 'walks' });
  expect(readDeskRoute(`${walkPageAddress('a?b')}?line=3`)).toEqual({ at: 'walk', walk: 'a?b' });
});
