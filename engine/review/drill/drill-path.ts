import type { Probe } from '../../suspects/index.ts';
import type { Action } from '../../tree/index.ts';

/** One thing done on the way to an answer, by the tech or on the best way there. */
export type DrillPathStep = {
  readonly does:
    | { readonly kind: 'act'; readonly action: Action }
    /** A reading that proves two points dead. */
    | { readonly kind: 'dead'; readonly across: readonly [string, string] }
    | { readonly kind: 'probe'; readonly probe: Probe };
  /** By the model's count. */
  readonly minutes: number;
  /** What the display or the sign showed. */
  readonly shown?: string;
  /** What could still be the answer after it, 'nothing wrong' included; absent on acts. */
  readonly left?: number;
  /** The line of the record that it was. */
  readonly line?: number;
};

/** What can be the answer: a fault of the bench, or undefined for nothing wrong. */
export type DrillAnswer = string | undefined;
