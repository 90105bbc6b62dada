/**
 * The order of elimination of one circuit shape, found once. A circuit's admittance matrix is symmetric and mostly empty: fifteen nodes
 * have some thirty entries of two hundred. So its L·D·Lᵀ is written out as a list of slots to combine, and each solution only runs
 * down the list. No pivoting: every node loses energy somewhere, so its pivots keep a positive real part or a definite reactance; whether that
 * held is seen from the residual, and the dense solver takes over where it did not.
 */
export class SparseFactor {
  /** Slot of entry (i, j); the diagonal has the first n slots. */
  private readonly slots: Int32Array;
  private readonly order: Int32Array;
  // Per eliminated node, in order: how many later neighbours, then each neighbour and its slot, then the slot of each pair of them.
  private readonly tape: Int32Array;
  private readonly starts: Int32Array;
  // Entries of the matrix; those of a column hold L once it is eliminated.
  private readonly re: Float64Array;
  private readonly im: Float64Array;
  private readonly pivotRe: Float64Array;
  private readonly pivotIm: Float64Array;

  constructor(
    readonly size: number,
    pairs: readonly (readonly [number, number])[],
  ) {
    const neighbours = Array.from({ length: size }, () => new Set<number>());
    for (const [a, b] of pairs) {
      if (a === b) continue;
      neighbours[a]?.add(b);
      neighbours[b]?.add(a);
    }
    this.slots = new Int32Array(size * size).fill(-1);
    for (let i = 0; i < size; i += 1) this.slots[i * size + i] = i;
    let count = size;
    const give = (a: number, b: number): number => {
      const known = this.slots[a * size + b] ?? -1;
      if (known >= 0) return known;
      this.slots[a * size + b] = count;
      this.slots[b * size + a] = count;
      count += 1;
      return count - 1;
    };
    const left = new Set<number>(neighbours.keys());
    const order: number[] = [];
    const tape: number[] = [];
    const starts: number[] = [];
    while (left.size > 0) {
      // Least degree first keeps the fill small.
      let node = -1;
      for (const candidate of left) if (node < 0 || (neighbours[candidate]?.size ?? 0) < (neighbours[node]?.size ?? 0)) node = candidate;
      left.delete(node);
      order.push(node);
      starts.push(tape.length);
      const later = [...(neighbours[node] ?? [])];
      tape.push(later.length);
      for (const other of later) tape.push(other, give(node, other));
      for (const [i, a] of later.entries()) {
        neighbours[a]?.delete(node);
        for (const b of later.slice(0, i)) {
          neighbours[a]?.add(b);
          neighbours[b]?.add(a);
          tape.push(give(a, b));
        }
        tape.push(a);
      }
    }
    this.order = Int32Array.from(order);
    this.tape = Int32Array.from(tape);
    this.starts = Int32Array.from(starts);
    this.re = new Float64Array(count);
    this.im = new Float64Array(count);
    this.pivotRe = new Float64Array(size);
    this.pivotIm = new Float64Array(size);
  }

  slot(a: number, b: number): number {
    return this.slots[a * this.size + b] ?? -1;
  }

  clear(): void {
    this.re.fill(0);
    this.im.fill(0);
  }

  add(slot: number, re: number, im: number): void {
    this.re[slot] = (this.re[slot] ?? 0) + re;
    this.im[slot] = (this.im[slot] ?? 0) + im;
  }

  /** The matrix as it was added up, row by row, for the dense solver. Only before `factor`. */
  dense(re: Float64Array, im: Float64Array): void {
    const { size, slots } = this;
    for (let i = 0; i < size * size; i += 1) {
      const slot = slots[i] ?? -1;
      re[i] = slot < 0 ? 0 : (this.re[slot] ?? 0);
      im[i] = slot < 0 ? 0 : (this.im[slot] ?? 0);
    }
  }

  /** Eliminates in place. Returns the node whose pivot vanished, -1 where none did. */
  factor(): number {
    const { re, im, tape, order, pivotRe, pivotIm } = this;
    let at = 0;
    for (let k = 0; k < order.length; k += 1) {
      const node = order[k] ?? 0;
      const count = tape[at] ?? 0;
      const first = at + 1;
      at = first + 2 * count;
      const dr = re[node] ?? 0;
      const di = im[node] ?? 0;
      const size = dr * dr + di * di;
      if (!(size > 1e-60)) return node;
      const pr = dr / size;
      const pi = -di / size;
      pivotRe[k] = pr;
      pivotIm[k] = pi;
      for (let i = 0; i < count; i += 1) {
        const slot = tape[first + 2 * i + 1] ?? 0;
        const ar = re[slot] ?? 0;
        const ai = im[slot] ?? 0;
        const lr = ar * pr - ai * pi;
        const li = ar * pi + ai * pr;
        for (let j = 0; j < i; j += 1) {
          // Columns before i hold L already: A = L·d.
          const other = tape[first + 2 * j + 1] ?? 0;
          const jr = re[other] ?? 0;
          const ji = im[other] ?? 0;
          const target = tape[at] ?? 0;
          at += 1;
          re[target] = (re[target] ?? 0) - (jr * ar - ji * ai);
          im[target] = (im[target] ?? 0) - (jr * ai + ji * ar);
        }
        const diagonal = tape[at] ?? 0;
        at += 1;
        re[diagonal] = (re[diagonal] ?? 0) - (lr * ar - li * ai);
        im[diagonal] = (im[diagonal] ?? 0) - (lr * ai + li * ar);
        re[slot] = lr;
        im[slot] = li;
      }
    }
    return -1;
  }

  /** Solves in place after `factor`; right side in, volts out. */
  solve(xr: Float64Array, xi: Float64Array): void {
    const { re, im, tape, starts, order, pivotRe, pivotIm } = this;
    for (let k = 0; k < order.length; k += 1) {
      const node = order[k] ?? 0;
      const at = starts[k] ?? 0;
      const count = tape[at] ?? 0;
      const br = xr[node] ?? 0;
      const bi = xi[node] ?? 0;
      for (let i = 0; i < count; i += 1) {
        const other = tape[at + 1 + 2 * i] ?? 0;
        const slot = tape[at + 2 + 2 * i] ?? 0;
        const lr = re[slot] ?? 0;
        const li = im[slot] ?? 0;
        xr[other] = (xr[other] ?? 0) - (lr * br - li * bi);
        xi[other] = (xi[other] ?? 0) - (lr * bi + li * br);
      }
      const pr = pivotRe[k] ?? 0;
      const pi = pivotIm[k] ?? 0;
      xr[node] = br * pr - bi * pi;
      xi[node] = br * pi + bi * pr;
    }
    for (let k = order.length - 1; k >= 0; k -= 1) {
      const node = order[k] ?? 0;
      const at = starts[k] ?? 0;
      const count = tape[at] ?? 0;
      let sr = xr[node] ?? 0;
      let si = xi[node] ?? 0;
      for (let i = 0; i < count; i += 1) {
        const other = tape[at + 1 + 2 * i] ?? 0;
        const slot = tape[at + 2 + 2 * i] ?? 0;
        const lr = re[slot] ?? 0;
        const li = im[slot] ?? 0;
        const vr = xr[other] ?? 0;
        const vi = xi[other] ?? 0;
        sr -= lr * vr - li * vi;
        si -= lr * vi + li * vr;
      }
      xr[node] = sr;
      xi[node] = si;
    }
  }
}
