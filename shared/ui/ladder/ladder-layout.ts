import type { Piece } from './circuit-edges.ts';
import type { Shape } from './part-face.ts';

/** A straight piece of a node; horizontal or vertical. All lengths here are px, y runs down, and every number is whole. */
export type Line = { readonly node: string; readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number };

/** Where a symbol meets the circuit, and the node that it meets there: the name of its lead where that is lifted. */
export type Port = { readonly node: string; readonly x: number; readonly y: number };

/** A part's symbol; of a transformer, one winding. `ports` are in the order of the part's own ends. */
export type PlacedSymbol = {
  readonly part: string;
  /** In full, where what is written beside it may be cut. */
  readonly name: string;
  readonly piece: Piece;
  readonly shape: Shape;
  /** Its middle, on the line that it stands in. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly ports: readonly [Port, Port];
  /** Of a contact: how it is drawn when nothing has power. */
  readonly normally?: 'open' | 'closed';
  /** Of a winding drawn with its other one: the y of the core between them. */
  readonly core?: number;
};

/** A row of a rung: from where to where it goes, and the y above all its labels, with room for its jumpers below that. */
export type RowSpan = { readonly left: number; readonly right: number; readonly top: number };

/** `inner`: named, and not to be touched; `hidden`: not even drawn. */
export type PointRole = 'terminal' | 'inner' | 'hidden' | 'loose-end';

/** A point of a node. A terminal has one in each ladder that it belongs to; a lead stands on the one nearest its fellow. */
export type PlacedPoint = {
  readonly node: string;
  readonly x: number;
  readonly y: number;
  readonly role: PointRole;
  readonly ladder: number;
  readonly row: RowSpan;
  /** Which rail it is the head of. */
  readonly corner?: 'left' | 'right';
};

export type TextKind =
  | 'name'
  | 'value'
  | 'state'
  | 'forced'
  | 'fault'
  | 'node'
  | 'inner-node'
  | 'flag'
  | 'lifted'
  | 'lead-red'
  | 'lead-black'
  | 'jumper'
  | 'more';

/** One line of text; `x` is its anchor, `y` its baseline. `pad` is the plate around it, sideways and up and down. */
export type PlacedText = {
  readonly text: string;
  readonly kind: TextKind;
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly size: number;
  readonly pad?: number;
  /** The part, node or lead that it is about. */
  readonly of: string;
};

/** A tag that ends a line at a point drawn elsewhere; `points` is the way it looks. */
export type PlacedFlag = { readonly node: string; readonly x: number; readonly y: number; readonly width: number; readonly points: 'left' | 'right' };

/** A ground symbol, hanging from its point. */
export type PlacedGround = { readonly node: string; readonly x: number; readonly y: number };

/** Where a lead is, or would be, off its terminal. */
export type PlacedLift = {
  readonly lead: string;
  readonly part: string;
  readonly off: boolean;
  readonly from: number;
  readonly to: number;
  readonly y: number;
};

/** A meter lead from its plate to the terminal that its tip touches. */
export type PlacedProbe = {
  readonly color: 'red' | 'black';
  readonly node: string;
  readonly x: number;
  readonly y: number;
  readonly plateX: number;
  readonly plateY: number;
};

/** A jumper as the corners of its way; drawn rounded. */
export type PlacedJumper = {
  readonly from: string;
  readonly to: string;
  readonly planned: boolean;
  readonly way: readonly (readonly [x: number, y: number])[];
};

export type Undrawn = { readonly part: string; readonly why: 'no-ends' | 'out-of-focus' };

/** Everything on the drawing, placed. */
export type LadderLayout = {
  readonly width: number;
  readonly height: number;
  readonly lines: readonly Line[];
  readonly symbols: readonly PlacedSymbol[];
  readonly points: readonly PlacedPoint[];
  readonly texts: readonly PlacedText[];
  readonly flags: readonly PlacedFlag[];
  readonly grounds: readonly PlacedGround[];
  readonly lifts: readonly PlacedLift[];
  readonly probes: readonly PlacedProbe[];
  readonly jumpers: readonly PlacedJumper[];
  readonly undrawn: readonly Undrawn[];
};
