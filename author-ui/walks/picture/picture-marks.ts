import type { EditionPicture } from '../../../engine/review/index.ts';
import type { Tree } from '../../../engine/tree/index.ts';
import { slipsOf } from '../../edit/graph/graph-model.ts';
import { lineId } from '../../edit/graph/lay-out.ts';
import { type FlowMarks, rowOf, type WayMark } from '../flow/flow-marks.ts';
import { countWords } from '../walk-words.ts';

/** How often each step and way of one tree was gone: a way's width is its share of the way gone most. */
export function pictureMarks(tree: Tree, { steps }: Pick<EditionPicture, 'steps'>, here: string | undefined): FlowMarks {
  const slips = new Map(slipsOf(tree).map((slip) => [slip.step.id, slip]));
  const own = steps.filter((step) => step.tree === tree.name);
  const most = Math.max(1, ...own.flatMap(({ ways }) => Object.values(ways)));
  const ways = new Map<string, WayMark>();
  for (const { step, ways: gone } of own) {
    const slip = slips.get(step);
    for (const [on, count] of Object.entries(gone)) {
      const row = slip ? rowOf(slip, on) : -1;
      if (row >= 0) ways.set(lineId(step, row), { share: count / most, text: String(count), words: countWords(count, 'time') });
    }
  }
  return {
    steps: new Map(own.map(({ step, stays }) => [step, { text: `${stays}×`, words: countWords(stays, 'stay') }])),
    ways,
    ...(here !== undefined && { here }),
  };
}
