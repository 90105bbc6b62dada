import { expect, test } from 'vitest';
import type { PictureStep } from '../../../engine/review/index.ts';
import { waysOf } from '../../../engine/tree/index.ts';
import { smallEdition } from '../../../engine/walk/testing/small-edition.ts';
import { lineId } from '../../edit/graph/lay-out.ts';
import { pictureMarks } from './picture-marks.ts';

const EDITION = smallEdition();
const TREE = EDITION.trees[EDITION.root];

test('the way gone most is the widest, the others by their share; a way that the tree no longer has is not drawn', () => {
  const step = TREE?.steps.find((one) => waysOf(one).length > 1);
  if (!TREE || !step) throw new Error('no tree');
  const [first, second] = waysOf(step).map(({ on }) => on);
  const walked: PictureStep = {
    tree: TREE.name,
    step: step.id,
    stays: 9,
    minutes: {},
    minutesSum: 9,
    couldNot: 0,
    tooClose: 0,
    acceptedTooClose: 0,
    jumpedTo: 0,
    steppedBack: 0,
    ways: { [first ?? '']: 6, [second ?? '']: 3, 'no such way': 1 },
  };
  const marks = pictureMarks(TREE, { steps: [walked, { ...walked, tree: 'another' }] }, step.id);
  expect([...marks.ways].map(([id, { share, text }]) => [id, share, text])).toEqual([
    [lineId(step.id, 0), 1, '6'],
    [lineId(step.id, 1), 0.5, '3'],
  ]);
  expect([...marks.steps]).toEqual([[step.id, { text: '9×', words: '9 stays' }]]);
  expect(marks.here).toBe(step.id);
});
