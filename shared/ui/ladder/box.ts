import type { Edge } from './circuit-edges.ts';
import type { RowSpan } from './ladder-layout.ts';
import type { Stance } from './part-face.ts';
import type { Sheet } from './sheet.ts';

/** Where a box is set: from `x` to `right` on the line at `y`. `row` is there once it is part of a row. */
export type Spot = { readonly x: number; readonly right: number; readonly y: number; readonly row?: RowSpan };

/**
 * Something that takes room on a rung and can be set anywhere. It is entered at its left on its line; it is left at its right, `exit`
 * px further down (0 unless it is folded).
 */
export type Box = {
  readonly width: number;
  readonly up: number;
  readonly down: number;
  readonly exit: number;
  /** Jumper ends on its first line; `up` has room for each. */
  readonly lanes: number;
  readonly stance: Stance | 'block';
  /** Has more below its line than its symbol. */
  readonly under: boolean;
  /** Nothing goes on to its right. */
  readonly isEnd: boolean;
  /** How far a plate below its line reaches past its inner edge. */
  readonly overhang: number;
  readonly place: (sheet: Sheet, spot: Spot) => void;
};

/** A box with the nodes at its ends, and the part it is the symbol of. */
export type Cell = { readonly box: Box; readonly from: string; readonly to: string; readonly edge?: Edge };

/** Distances, px. */
export const GAP = {
  /** Between a text and the next thing on its line. */
  beside: 5,
  /** Between a symbol and the texts above and below it. */
  label: 4,
  /** Between two rungs, or two branches. */
  rung: 10,
  /** What a folded rung stays inside its rails. */
  fold: 12,
  /** For a jumper to pass above a row. */
  lane: 18,
} as const;

/** A box that stays on one line. */
export const flat = (box: Pick<Box, 'width' | 'up' | 'down' | 'place'> & Partial<Box>): Box => ({
  exit: 0,
  lanes: 0,
  stance: 'pass',
  under: false,
  isEnd: false,
  overhang: 0,
  ...box,
});
