import type { QuantityKindName } from '../../engine/quantity/index.ts';

/** What the tech has in hand: where the dial and the leads are, and which lead the next press on the drawing moves. */
export type Hands = {
  readonly dial: QuantityKindName;
  readonly low: boolean;
  readonly red?: string | undefined;
  readonly black?: string | undefined;
  readonly next: 'red' | 'black';
  /** Where an instrument is, for what is not read between two points. */
  readonly at?: string;
  /** A jumper being put on, in place of the leads. */
  readonly jumper?: { readonly from?: string; readonly to?: string };
};

export const firstHands: Hands = { dial: 'ac-voltage', low: false, next: 'red' };
