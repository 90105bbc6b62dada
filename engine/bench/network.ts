import type { Circuit } from './circuit.ts';
import { DenseFactor } from './dense-factor.ts';
import { NodeSets } from './node-sets.ts';

/** Node volts (rms phasors; real for DC) and the island each node is in. Index `size` of `island` is ground. */
export type Field = { readonly re: Float64Array; readonly im: Float64Array; readonly island: Int32Array };

export type Line = 'ac' | 'dc';

/** Amps of 1 A forced out of node b into node a, for what a meter's test current finds. */
export type TestCurrent = { readonly into: number; readonly outOf: number };

export type Method = 'sparse' | 'dense';

/** How exactly currents must add up at each node: a share of the currents there, and amps. */
export const TOLERANCES = { relative: 1e-9, amps: 1e-13 } as const;

/** Ω from every node to ground. Alone it decides where an island that nothing else joins to ground floats. */
export const LEAK_OHMS = 1e12;

export const emptyField = (size: number): Field => ({
  re: new Float64Array(size),
  im: new Float64Array(size),
  island: new Int32Array(size + 1),
});

/** A field of no volts, one for each size; never written to. */
export const noField = (size: number): Field => kept(NO_FIELDS, size, () => emptyField(size));

const NO_FIELDS = new Map<number, Field>();

/**
 * Solves one circuit with its states at one frequency, or at DC, for its node volts: Y·v = J by nodal analysis (Kirchhoff's current
 * law at every node). Every source is a current beside its own admittance and every transformer a two-port with series resistance, so nodes are the
 * only unknowns and Y is symmetric.
 *
 * The leak of 10¹² Ω at each node is far below the rounding of a 0.02 Ω contact's admittance, so it is not added to Y. No island's
 * currents depend on where it floats: it is solved against its first node, and then moved to where its leaks balance, the mean of
 * its nodes at zero. That is the exact limit of the leaks, without their rounding.
 *
 * Returns -1, or the node at which there is no answer.
 */
export function solveField(circuit: Circuit, states: Int8Array, line: Line, method: Method, out: Field, test?: TestCurrent): number {
  const { size, branches, transformers } = circuit;
  const { factor, slots } = circuit.shape;
  const { re, im, island } = out;
  const sets = setsFor(size + 1);
  factor.clear();
  re.fill(0);
  im.fill(0);
  const ac = line === 'ac';
  for (let i = 0; i < branches.length; i += 1) {
    const branch = branches[i];
    if (!branch) continue;
    const on = !branch.switched || states[branch.part] !== 0;
    const y = on ? branch.on : branch.off;
    const yr = ac ? y.re : y.dc;
    const yi = ac ? y.im : 0;
    if (yr === 0 && yi === 0) continue;
    const { a, b } = branch;
    sets.join(a < 0 ? size : a, b < 0 ? size : b);
    if (a >= 0) factor.add(a, yr, yi);
    if (b >= 0) factor.add(b, yr, yi);
    const slot = slots[i] ?? -1;
    if (slot >= 0) factor.add(slot, -yr, -yi);
    if (test || !on) continue;
    const jr = ac ? branch.driveRe : branch.driveDc;
    const ji = ac ? branch.driveIm : 0;
    if (jr === 0 && ji === 0) continue;
    if (a >= 0) {
      re[a] = (re[a] ?? 0) + jr;
      im[a] = (im[a] ?? 0) + ji;
    }
    if (b >= 0) {
      re[b] = (re[b] ?? 0) - jr;
      im[b] = (im[b] ?? 0) - ji;
    }
  }
  if (ac) {
    for (const { ends, ratio, conductance } of transformers) {
      const [p, q, s, t] = ends;
      sets.join(p < 0 ? size : p, q < 0 ? size : q);
      sets.join(s < 0 ? size : s, t < 0 ? size : t);
      // i = g·w·(w·v) with w = (k, −k, −1, 1): secondary current g(k·vp − vs), primary k times it.
      for (let i = 0; i < 4; i += 1) {
        const a = ends[i] ?? -1;
        if (a < 0) continue;
        const wa = WINDING_SIGN[i] ?? 0;
        const fa = i < 2 ? ratio * wa : wa;
        factor.add(a, conductance * fa * fa, 0);
        for (let j = 0; j < i; j += 1) {
          const b = ends[j] ?? -1;
          if (b < 0) continue;
          const wb = WINDING_SIGN[j] ?? 0;
          const product = conductance * fa * (j < 2 ? ratio * wb : wb);
          // Two ends of it on one node both count on that node's diagonal.
          if (a === b) factor.add(a, 2 * product, 0);
          else factor.add(factor.slot(a, b), product, 0);
        }
      }
    }
  }
  if (test) {
    if (test.into >= 0) re[test.into] = (re[test.into] ?? 0) + 1;
    if (test.outOf >= 0) re[test.outOf] = (re[test.outOf] ?? 0) - 1;
  }
  // An island's own volts are found against its first node, which is tied down; nothing flows in the tie.
  const ground = sets.find(size);
  for (let i = 0; i <= size; i += 1) {
    const root = sets.find(i);
    island[i] = root;
    if (root === i && root !== ground) factor.add(i, 1, 0);
  }
  const failed = method === 'sparse' ? factor.factor() : denseSolve(circuit, re, im);
  if (failed >= 0) return failed;
  if (method === 'sparse') factor.solve(re, im);
  settleIslands(size, island, ground, re, im);
  return -1;
}

const WINDING_SIGN = [1, -1, -1, 1] as const;

// Scratch by size; nothing of it outlives one call.
const SETS = new Map<number, NodeSets>();
const DENSE = new Map<number, DenseFactor>();
const SUMS = new Map<number, { re: Float64Array; im: Float64Array; count: Int32Array }>();

function kept<T>(store: Map<number, T>, size: number, make: () => T): T {
  let value = store.get(size);
  if (value === undefined) {
    value = make();
    store.set(size, value);
  }
  return value;
}

function setsFor(size: number): NodeSets {
  const sets = kept(SETS, size, () => new NodeSets(size));
  sets.clear();
  return sets;
}

function denseSolve(circuit: Circuit, re: Float64Array, im: Float64Array): number {
  const dense = kept(DENSE, circuit.size, () => new DenseFactor(circuit.size));
  circuit.shape.factor.dense(dense.re, dense.im);
  const failed = dense.factor();
  if (failed < 0) dense.solve(re, im);
  return failed;
}

function settleIslands(size: number, island: Int32Array, ground: number, re: Float64Array, im: Float64Array): void {
  const sums = kept(SUMS, size, () => ({ re: new Float64Array(size + 1), im: new Float64Array(size + 1), count: new Int32Array(size + 1) }));
  let floating = false;
  for (let i = 0; i < size; i += 1) floating ||= island[i] !== ground;
  if (!floating) return;
  sums.re.fill(0);
  sums.im.fill(0);
  sums.count.fill(0);
  for (let i = 0; i < size; i += 1) {
    const root = island[i] ?? i;
    sums.re[root] = (sums.re[root] ?? 0) + (re[i] ?? 0);
    sums.im[root] = (sums.im[root] ?? 0) + (im[i] ?? 0);
    sums.count[root] = (sums.count[root] ?? 0) + 1;
  }
  for (let i = 0; i < size; i += 1) {
    const root = island[i] ?? i;
    if (root === ground) continue;
    const count = sums.count[root] ?? 1;
    re[i] = (re[i] ?? 0) - (sums.re[root] ?? 0) / count;
    im[i] = (im[i] ?? 0) - (sums.im[root] ?? 0) / count;
  }
}

/** The worst node of a solution by Kirchhoff's current law: amps that do not add up there, and how many flow through it. */
export type Imbalance = { readonly node: number; readonly amps: number; readonly through: number };

/** What is left over at each node, in amps; the node with the most beyond the tolerances, if any. */
export function imbalance(circuit: Circuit, states: Int8Array, line: Line, { re, im }: Field): Imbalance | undefined {
  const { size, branches, transformers } = circuit;
  const sums = kept(KCL, size, () => ({ re: new Float64Array(size), im: new Float64Array(size), through: new Float64Array(size) }));
  sums.re.fill(0);
  sums.im.fill(0);
  sums.through.fill(0);
  const ac = line === 'ac';
  for (const { a, b, part, switched, on, off, driveRe, driveIm, driveDc } of branches) {
    const closed = !switched || states[part] !== 0;
    const y = closed ? on : off;
    const yr = ac ? y.re : y.dc;
    const yi = ac ? y.im : 0;
    if (yr === 0 && yi === 0) continue;
    const ar = a < 0 ? 0 : (re[a] ?? 0);
    const ai = a < 0 ? 0 : (im[a] ?? 0);
    const br = b < 0 ? 0 : (re[b] ?? 0);
    const bi = b < 0 ? 0 : (im[b] ?? 0);
    const jr = closed ? (ac ? driveRe : driveDc) : 0;
    const ji = closed && ac ? driveIm : 0;
    const ir = yr * (ar - br) - yi * (ai - bi) - jr;
    const ii = yr * (ai - bi) + yi * (ar - br) - ji;
    // What a branch's own rounding can leave: its admittance times the volts that were subtracted.
    const through = (Math.abs(yr) + Math.abs(yi)) * (Math.abs(ar) + Math.abs(ai) + Math.abs(br) + Math.abs(bi)) + Math.abs(jr) + Math.abs(ji);
    if (a >= 0) leave(sums, a, ir, ii, through);
    if (b >= 0) leave(sums, b, -ir, -ii, through);
  }
  if (ac) {
    for (const { ends, ratio, conductance } of transformers) {
      let wr = 0;
      let wi = 0;
      let most = 0;
      for (let i = 0; i < 4; i += 1) {
        const node = ends[i] ?? -1;
        if (node < 0) continue;
        const f = (i < 2 ? ratio : 1) * (WINDING_SIGN[i] ?? 0);
        wr += f * (re[node] ?? 0);
        wi += f * (im[node] ?? 0);
        most += Math.abs(f) * (Math.abs(re[node] ?? 0) + Math.abs(im[node] ?? 0));
      }
      for (let i = 0; i < 4; i += 1) {
        const node = ends[i] ?? -1;
        const f = conductance * (i < 2 ? ratio : 1) * (WINDING_SIGN[i] ?? 0);
        if (node >= 0) leave(sums, node, f * wr, f * wi, Math.abs(f) * most);
      }
    }
  }
  let worst: Imbalance | undefined;
  for (let node = 0; node < size; node += 1) {
    const ir = sums.re[node] ?? 0;
    const ii = sums.im[node] ?? 0;
    const through = sums.through[node] ?? 0;
    const most = TOLERANCES.relative * through + TOLERANCES.amps;
    // Not written as 'greater': what is no number must not pass.
    if (ir * ir + ii * ii <= most * most) continue;
    const amps = Math.sqrt(ir * ir + ii * ii);
    if (!worst || !(amps <= worst.amps)) worst = { node, amps, through };
  }
  return worst;
}

type Sums = { readonly re: Float64Array; readonly im: Float64Array; readonly through: Float64Array };

function leave({ re, im, through }: Sums, node: number, ir: number, ii: number, size: number): void {
  re[node] = (re[node] ?? 0) + ir;
  im[node] = (im[node] ?? 0) + ii;
  through[node] = (through[node] ?? 0) + size;
}

const KCL = new Map<number, Sums>();
