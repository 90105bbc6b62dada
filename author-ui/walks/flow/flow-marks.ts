import type { Tree } from '../../../engine/tree/index.ts';
import type { PathEntry } from '../../../engine/walk/index.ts';
import { type Slip, slipsOf } from '../../edit/graph/graph-model.ts';
import { lineId } from '../../edit/graph/lay-out.ts';

/** What is drawn onto a way: `share` of the widest, 0 to 1, and a number beside it. */
export type WayMark = { readonly share: number; readonly text?: string; readonly words?: string };

/** What is drawn onto a tree's steps and ways. Steps without a mark are drawn back. */
export type FlowMarks = {
  readonly steps: ReadonlyMap<string, { readonly text?: string; readonly words?: string }>;
  /** By `lineId`. */
  readonly ways: ReadonlyMap<string, WayMark>;
  readonly here?: string;
};

/** The place of a way among a slip's rows; -1 where the step has no such way. */
export const rowOf = ({ rows }: Slip, on: string): number => rows.findIndex((row) => row.on === on);

/** A path is one line, not a share of anything: wide enough to be followed. */
const PATH_SHARE = 0.25;

/** The path so far on the slips of one tree, and the step that it stands at. */
export function pathMarks(tree: Tree, path: readonly PathEntry[], here: string | undefined): FlowMarks {
  const slips = new Map(slipsOf(tree).map((slip) => [slip.step.id, slip]));
  const steps = new Map<string, { readonly text?: string; readonly words?: string }>();
  const ways = new Map<string, WayMark>();
  const own = path.filter((entry) => entry.tree === tree.name);
  for (const entry of own) {
    steps.set(entry.step, { words: 'was walked' });
    const slip = slips.get(entry.step);
    const row = slip && entry.on !== undefined ? rowOf(slip, entry.on) : -1;
    if (row >= 0) ways.set(lineId(entry.step, row), { share: PATH_SHARE, words: 'taken' });
  }
  if (here !== undefined) steps.set(here, { words: 'stands here' });
  return { steps, ways, ...(here !== undefined && { here }) };
}
