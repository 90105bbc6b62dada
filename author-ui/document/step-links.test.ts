import { expect, test } from 'vitest';
import { type Tree, waysOf } from '../../engine/tree/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { stepNumbers, waysIn, waysOut } from './step-links.ts';

const tree = smallEdition().trees['dry-pad'] as Tree;
const step = (id: string) => {
  const found = tree.steps.find((one) => one.id === id);
  if (!found) throw new Error(`no step ${id}`);
  return found;
};

test('cannot is shown where the step itself says where it leads, and last', () => {
  expect(waysOut(step('close-by-hand')).map(({ on }) => on)).toEqual(['done', 'cannot']);
  expect(waysOut(step('water-runs')).map(({ on }) => on)).toEqual(['runs', 'dry']);
});

test('findings and handoffs have no ways on', () => {
  expect(waysOut(step('coil-open'))).toEqual([]);
  expect(waysOut(step('weak'))).toEqual([]);
});

test('every way of the tree that stays in it is a way into its step, once', () => {
  const into = waysIn(tree);
  const all = tree.steps.flatMap((from) => waysOf(from).filter(({ to }) => to.tree === undefined).length);
  const named = tree.steps.filter(({ cannot }) => cannot).length;
  expect([...into.values()].flat()).toHaveLength(all.reduce((sum, count) => sum + count, 0) + named);
  expect(into.get('coil-open')?.map(({ from, on }) => `${from.id} ${on}`)).toEqual(['coil above 200 ohm', 'coil open']);
});

test('steps are numbered from 1 in document order', () => {
  expect([...stepNumbers(tree).values()]).toEqual(tree.steps.map((_, index) => index + 1));
});
