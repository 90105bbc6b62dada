import { expect, test } from 'vitest';
import { waysOf } from '../../engine/tree/index.ts';
import { relinkedElsewhere, renameStep, withId } from './rename-step.ts';
import { shippedTree } from './testing/shipped-tree.ts';

const { tree } = shippedTree('no-water-at-the-pad');

test('everything that led to the step leads to it under its new name', () => {
  const before = JSON.stringify(tree).split('"water-at-the-pad"').length;
  const renamed = renameStep(tree, 'water-at-the-pad', 'Water on the pad');
  if (!renamed.ok) throw new Error('renamed');
  expect(renamed.value.id).toBe('water-on-the-pad');
  expect(JSON.stringify(renamed.value.tree).split('"water-on-the-pad"')).toHaveLength(before);
  expect(renamed.value.tree.recheck?.step).toBe('water-on-the-pad');
});

test('links in prose follow', () => {
  const linked = {
    ...tree,
    steps: tree.steps.map((step, index) =>
      index === 0
        ? {
            ...step,
            prose: [{ type: 'paragraph' as const, children: [{ type: 'link' as const, url: '#supply-cock', children: [] }] }],
          }
        : step,
    ),
  };
  const renamed = withId(linked, 'supply-cock', 'cock');
  if (!renamed.ok) throw new Error('renamed');
  expect(JSON.stringify(renamed.value.tree.steps[0]?.prose)).toContain('"#cock"');
});

test('an id of its own stays when the title changes', () => {
  const own = withId(tree, 'supply-cock', 'cock');
  if (!own.ok) throw new Error('renamed');
  const renamed = renameStep(own.value.tree, 'cock', 'Cock at the pipe');
  expect(renamed.ok && renamed.value.id).toBe('cock');
  expect(renamed.ok && renamed.value.tree.steps.some((step) => waysOf(step).some(({ to }) => to.step === 'cock'))).toBe(true);
});

test.each([
  ['  ', 'no-title'],
  ['???', 'no-id'],
  ['Frost setting', 'taken'],
])('%j is refused: %s', (title, code) => {
  const renamed = renameStep(tree, 'supply-cock', title);
  expect(!renamed.ok && renamed.problem.code).toBe(code);
});

test('steps that do not lead there are the same values', () => {
  const renamed = renameStep(tree, 'supply-cock', 'Cock');
  if (!renamed.ok) throw new Error('renamed');
  const same = renamed.value.tree.steps.filter((step) => tree.steps.includes(step)).length;
  const leading = tree.steps.filter((step) => waysOf(step).some(({ to }) => to.step === 'supply-cock')).length;
  expect(same).toBe(tree.steps.length - leading - 1);
});

test('another tree that leads there follows in its text, and only there', () => {
  const text = '- x: [A](no-heat.tree.mdx#limit-switch)\n- y: [B](no-cool.tree.mdx#limit-switch)\n- z: [C](#limit-switch)\n';
  expect(relinkedElsewhere(text, 'no-heat', 'limit-switch', 'limit')).toBe(text.replace('no-heat.tree.mdx#limit-switch', 'no-heat.tree.mdx#limit'));
});
