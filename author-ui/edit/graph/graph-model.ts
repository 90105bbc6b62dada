import { handoffOf, type Step, type Target, type Tree, waysOf } from '../../../engine/tree/index.ts';

/** A way as a slip lists it. `isDrawn`: a line leads from it to its step; else only the step's number says where it leads. */
export type SlipRow = { readonly on: string; readonly to: Target; readonly isDrawn: boolean };

/** A step as the graph shows it, with its size in pixels: a layout needs it before anything is drawn. */
export type Slip = {
  readonly step: Step;
  readonly number: number;
  readonly rows: readonly SlipRow[];
  readonly height: number;
  readonly rowsTop: number;
};

export const SLIP_WIDTH = 236;
export const ROW_HEIGHT = 22;
const HEAD = 30;
const TITLE_LINE = 19;
/** Letters of the title that surely fit on a line of a slip. */
const LETTERS = 25;

/** More ways than this into one handoff are not drawn: they would hide all others. */
const MOST_INTO = 3;

/** The steps of a tree as slips, in document order. */
export function slipsOf(tree: Tree): readonly Slip[] {
  const into = new Map<string, number>();
  const ids = new Map(tree.steps.map((step) => [step.id, step]));
  const isHere = (to: Target): boolean => (to.tree === undefined || to.tree === tree.name) && ids.has(to.step);
  for (const step of tree.steps) for (const { to } of waysOf(step)) if (isHere(to)) into.set(to.step, (into.get(to.step) ?? 0) + 1);
  const handoff = handoffOf(tree);
  const isDrawn = (to: Target): boolean => {
    const step = ids.get(to.step);
    if (!isHere(to) || !step) return false;
    return (step.kind !== 'handoff' && step.id !== handoff) || (into.get(to.step) ?? 0) <= MOST_INTO;
  };
  return tree.steps.map((step, index) => {
    const ways = [...waysOf(step), ...(step.cannot ? [{ on: 'cannot', to: step.cannot }] : [])];
    const rows = ways.map(({ on, to }) => ({ on, to, isDrawn: isDrawn(to) }));
    const rowsTop = HEAD + TITLE_LINE * (step.title.length > LETTERS ? 2 : 1) + 8;
    return { step, number: index + 1, rows, rowsTop, height: rowsTop + rows.length * ROW_HEIGHT };
  });
}

/** What a layout depends on. The same text, the same layout. */
export const shapeOf = (slips: readonly Slip[]): string =>
  JSON.stringify(slips.map(({ step, height, rowsTop, rows }) => [step.id, height, rowsTop, rows.map(({ to, isDrawn }) => (isDrawn ? to.step : 0))]));
