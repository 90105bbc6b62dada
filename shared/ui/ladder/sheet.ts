import type { Line, PlacedFlag, PlacedGround, PlacedLift, PlacedPoint, PlacedSymbol, PlacedText } from './ladder-layout.ts';
import type { Rect } from './text-box.ts';

/** What has been placed so far. */
export class Sheet {
  readonly lines: Line[] = [];
  readonly symbols: PlacedSymbol[] = [];
  readonly points: PlacedPoint[] = [];
  readonly texts: PlacedText[] = [];
  readonly flags: PlacedFlag[] = [];
  readonly grounds: PlacedGround[] = [];
  readonly lifts: PlacedLift[] = [];
  /** Room kept for what is placed later. */
  readonly reserved: Rect[] = [];
  /** Which ladder is being placed. */
  ladder = 0;

  /** A level or upright piece of a node; none where it has no length. */
  line(node: string, x1: number, y1: number, x2: number, y2: number): void {
    if (x1 !== x2 || y1 !== y2) this.lines.push({ node, x1, y1, x2, y2 });
  }
}
