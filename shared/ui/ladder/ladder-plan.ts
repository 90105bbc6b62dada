import type { Edge } from './circuit-edges.ts';
import type { Net } from './net.ts';
import type { Stub } from './series-parallel.ts';

/** A circuit that stands on its own two rails: what lies between them, and what hangs from its nodes. */
export type LadderPlan = {
  readonly left: string;
  readonly right: string;
  readonly supply: Edge | undefined;
  /** Read from the left rail to the right one. */
  readonly net: Net;
  readonly stubs: StubsByNode;
  /** Every node that this ladder draws a point for. */
  readonly nodes: ReadonlySet<string>;
};

export type StubsByNode = ReadonlyMap<string, readonly Stub[]>;

/** A piece on no rails: it starts at a point of its own. Without a stub it is that point alone. */
export type LoosePiece = { readonly node: string; readonly stubs: StubsByNode };

/** A bench as ladders, from the line down. Parts without ends are no part of a circuit. */
export type CircuitPlan = {
  readonly ladders: readonly LadderPlan[];
  readonly loose: readonly LoosePiece[];
  readonly endless: readonly string[];
};
