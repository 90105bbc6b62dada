import type { Branch, TransformerPiece } from './part-stamp.ts';
import { SparseFactor } from './sparse-factor.ts';

/** Which nodes a circuit joins: its elimination order, and the matrix slot of each branch (-1 where an end is ground). */
export type CircuitShape = { readonly factor: SparseFactor; readonly slots: Int32Array };

// A walk's jumpers, lifted leads and faults give a few hundred shapes; this many are kept.
const KEPT = 1000;

/** The shapes of one bench's circuits, each worked out once. Circuits that join the same nodes share an elimination order. */
export class Shapes {
  private readonly factors = new Map<string, SparseFactor>();
  private readonly shapes = new Map<string, CircuitShape>();

  constructor(private readonly size: number) {}

  /** The shape of these pieces. */
  of(branches: readonly Branch[], transformers: readonly TransformerPiece[]): CircuitShape {
    const pairs = joinedPairs(branches, transformers);
    const key = pairs.join(' ');
    let factor = this.factors.get(key);
    if (!factor) {
      if (this.factors.size >= KEPT) this.factors.clear();
      factor = new SparseFactor(this.size, pairs);
      this.factors.set(key, factor);
    }
    const slots = new Int32Array(branches.length);
    for (const [i, { a, b }] of branches.entries()) slots[i] = a < 0 || b < 0 || a === b ? -1 : factor.slot(a, b);
    return { factor, slots };
  }

  /** As `of`, remembered by the faults, jumpers and lifted leads that made the pieces: facts and settings do not change what is joined. */
  forEdits(edits: string, branches: readonly Branch[], transformers: readonly TransformerPiece[]): CircuitShape {
    let shape = this.shapes.get(edits);
    if (!shape) {
      if (this.shapes.size >= KEPT) this.shapes.clear();
      shape = this.of(branches, transformers);
      this.shapes.set(edits, shape);
    }
    return shape;
  }
}

/** Each pair of nodes that some piece joins, once, in one order. */
function joinedPairs(branches: readonly Branch[], transformers: readonly TransformerPiece[]): readonly (readonly [number, number])[] {
  const keys = new Set<number>();
  const pairs: (readonly [number, number])[] = [];
  const add = (a: number, b: number): void => {
    if (a < 0 || b < 0 || a === b) return;
    const low = Math.min(a, b);
    const high = Math.max(a, b);
    const key = low * 100_000 + high;
    if (keys.has(key)) return;
    keys.add(key);
    pairs.push([low, high]);
  };
  for (const { a, b } of branches) add(a, b);
  for (const { ends } of transformers) for (const [i, a] of ends.entries()) for (const b of ends.slice(0, i)) add(a, b);
  return pairs.sort(([a, b], [c, d]) => a - c || b - d);
}
