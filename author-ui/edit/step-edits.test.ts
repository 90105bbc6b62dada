import { expect, test } from 'vitest';
import type { StepKind, Tree } from '../../engine/tree/index.ts';
import { waysOf, writeTree } from '../../engine/tree/index.ts';
import { blankTree } from './blank-tree.ts';
import { addStep, changeKind, changeWays, duplicateStep, leadsTo, moveStep, removeStep } from './step-edits.ts';
import { readOrThrow } from './testing/shipped-tree.ts';

const tree = blankTree('new', 'New');
const FIRST = 'try-the-complaint';
const first = (of: Tree) => of.steps.flatMap((step) => (step.id === FIRST ? waysOf(step) : []));

test('the recheck follows when the way that it waits for gets another label, and only then', () => {
  const renamed = changeWays(tree, FIRST, [{ on: 'rings', to: { step: 'nothing-wrong-found' } }, ...first(tree).slice(1)]);
  expect(renamed.recheck).toEqual({ step: FIRST, passes: 'rings' });
  expect(changeWays(tree, FIRST, first(tree).toReversed()).recheck).toEqual(tree.recheck);
  expect(changeWays(tree, FIRST, first(tree).slice(1)).recheck).toEqual(tree.recheck);
});

test.each<StepKind>(['reading', 'look', 'act', 'ask', 'finding', 'handoff'])(
  'a new %s, and any step made one, can be written and read again',
  (kind) => {
    for (const made of [addStep(tree, kind, FIRST).tree, changeKind(tree, FIRST, kind)])
      expect(readOrThrow(writeTree(made), 'new').tree).toEqual(made);
  },
);

test('a step is added behind another, under a title that is free', () => {
  const twice = addStep(addStep(tree, 'look', FIRST).tree, 'look', FIRST);
  expect(twice.id).toBe('new-look-2');
  expect(twice.tree.steps.map(({ id }) => id).slice(0, 3)).toEqual([FIRST, 'new-look-2', 'new-look']);
  expect(duplicateStep(tree, FIRST).tree.steps[1]?.title).toBe('Try the complaint, copy');
});

test('a step moves within the document, and the last one is never taken out', () => {
  expect(moveStep(tree, FIRST, 99).steps.at(-1)?.id).toBe(FIRST);
  expect(moveStep(tree, FIRST, -1)).toBe(tree);
  const [last] = tree.steps;
  if (!last) throw new Error('a step');
  const single = { ...tree, steps: [last] };
  expect(removeStep(single, FIRST).tree).toBe(single);
  expect(removeStep(tree, FIRST).id).toBe('nothing-wrong-found');
});

test('what leads to a step is found', () => expect(leadsTo(tree, 'call-the-senior-tech').map(({ id }) => id)).toEqual([FIRST]));
