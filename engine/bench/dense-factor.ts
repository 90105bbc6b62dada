/**
 * Dense complex L·U with partial pivoting, for the circuits that the sparse order cannot do. Row-major, sizes fixed at the start, nothing
 * allocated while solving.
 */
export class DenseFactor {
  readonly re: Float64Array;
  readonly im: Float64Array;
  private readonly rows: Int32Array;
  private readonly workRe: Float64Array;
  private readonly workIm: Float64Array;

  constructor(readonly size: number) {
    this.re = new Float64Array(size * size);
    this.im = new Float64Array(size * size);
    this.rows = new Int32Array(size);
    this.workRe = new Float64Array(size);
    this.workIm = new Float64Array(size);
  }

  /** Factors what stands in `re` and `im`. Returns the column without a pivot, -1 where there is none. */
  factor(): number {
    const { size, re, im, rows } = this;
    for (let k = 0; k < size; k += 1) {
      let best = -1;
      let most = 1e-30;
      for (let i = k; i < size; i += 1) {
        const r = re[i * size + k] ?? 0;
        const m = im[i * size + k] ?? 0;
        const magnitude = r * r + m * m;
        if (magnitude > most) {
          most = magnitude;
          best = i;
        }
      }
      if (best < 0) return k;
      rows[k] = best;
      if (best !== k) this.swap(k, best);
      const dr = re[k * size + k] ?? 0;
      const di = im[k * size + k] ?? 0;
      const pr = dr / most;
      const pi = -di / most;
      for (let i = k + 1; i < size; i += 1) {
        const ar = re[i * size + k] ?? 0;
        const ai = im[i * size + k] ?? 0;
        if (ar === 0 && ai === 0) continue;
        const lr = ar * pr - ai * pi;
        const li = ar * pi + ai * pr;
        re[i * size + k] = lr;
        im[i * size + k] = li;
        for (let j = k + 1; j < size; j += 1) {
          const ur = re[k * size + j] ?? 0;
          const ui = im[k * size + j] ?? 0;
          re[i * size + j] = (re[i * size + j] ?? 0) - (lr * ur - li * ui);
          im[i * size + j] = (im[i * size + j] ?? 0) - (lr * ui + li * ur);
        }
      }
    }
    return -1;
  }

  private swap(a: number, b: number): void {
    const { size, re, im } = this;
    for (let j = 0; j < size; j += 1) {
      const r = re[a * size + j] ?? 0;
      const m = im[a * size + j] ?? 0;
      re[a * size + j] = re[b * size + j] ?? 0;
      im[a * size + j] = im[b * size + j] ?? 0;
      re[b * size + j] = r;
      im[b * size + j] = m;
    }
  }

  /** Solves in place after `factor`; right side in, volts out. */
  solve(xr: Float64Array, xi: Float64Array): void {
    const { size, re, im, rows, workRe, workIm } = this;
    for (let k = 0; k < size; k += 1) {
      const row = rows[k] ?? k;
      if (row === k) continue;
      const r = xr[k] ?? 0;
      const m = xi[k] ?? 0;
      xr[k] = xr[row] ?? 0;
      xi[k] = xi[row] ?? 0;
      xr[row] = r;
      xi[row] = m;
    }
    for (let i = 0; i < size; i += 1) {
      let sr = xr[i] ?? 0;
      let si = xi[i] ?? 0;
      for (let j = 0; j < i; j += 1) {
        const lr = re[i * size + j] ?? 0;
        const li = im[i * size + j] ?? 0;
        sr -= lr * (workRe[j] ?? 0) - li * (workIm[j] ?? 0);
        si -= lr * (workIm[j] ?? 0) + li * (workRe[j] ?? 0);
      }
      workRe[i] = sr;
      workIm[i] = si;
    }
    for (let i = size - 1; i >= 0; i -= 1) {
      let sr = workRe[i] ?? 0;
      let si = workIm[i] ?? 0;
      for (let j = i + 1; j < size; j += 1) {
        const ur = re[i * size + j] ?? 0;
        const ui = im[i * size + j] ?? 0;
        sr -= ur * (xr[j] ?? 0) - ui * (xi[j] ?? 0);
        si -= ur * (xi[j] ?? 0) + ui * (xr[j] ?? 0);
      }
      const dr = re[i * size + i] ?? 0;
      const di = im[i * size + i] ?? 0;
      const magnitude = dr * dr + di * di;
      xr[i] = (sr * dr + si * di) / magnitude;
      xi[i] = (si * dr - sr * di) / magnitude;
    }
  }
}
