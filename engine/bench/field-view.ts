import type { Circuit } from './circuit.ts';
import type { CircuitView } from './circuit-builder.ts';
import type { Field } from './network.ts';

/** Volts, amps and states of a circuit on the fields and states it is given; it reads them, it keeps nothing. */
export class FieldView implements CircuitView {
  constructor(
    private readonly circuit: Circuit,
    private readonly settings: Int8Array,
    private readonly states: Int8Array,
    private readonly ac: Field,
    private readonly dc: () => Field,
  ) {}

  volts(a: number, b: number): number {
    const { re, im, island } = this.ac;
    const { size } = this.circuit;
    if (island[a < 0 ? size : a] !== island[b < 0 ? size : b]) return 0;
    const dr = (a < 0 ? 0 : (re[a] ?? 0)) - (b < 0 ? 0 : (re[b] ?? 0));
    const di = (a < 0 ? 0 : (im[a] ?? 0)) - (b < 0 ? 0 : (im[b] ?? 0));
    return Math.sqrt(dr * dr + di * di);
  }

  dcVolts(a: number, b: number): number {
    const { re, island } = this.dc();
    const { size } = this.circuit;
    if (island[a < 0 ? size : a] !== island[b < 0 ? size : b]) return 0;
    return (a < 0 ? 0 : (re[a] ?? 0)) - (b < 0 ? 0 : (re[b] ?? 0));
  }

  amps(part: number): number {
    const branch = this.circuit.branches[this.circuit.main[part] ?? -1];
    if (!branch) return 0;
    const on = !branch.switched || this.states[part] !== 0;
    const y = on ? branch.on : branch.off;
    const { re, im } = this.ac;
    const { a, b } = branch;
    const dr = (a < 0 ? 0 : (re[a] ?? 0)) - (b < 0 ? 0 : (re[b] ?? 0));
    const di = (a < 0 ? 0 : (im[a] ?? 0)) - (b < 0 ? 0 : (im[b] ?? 0));
    let ir = y.re * dr - y.im * di - (on ? branch.driveRe : 0);
    let ii = y.re * di + y.im * dr - (on ? branch.driveIm : 0);
    for (const { part: owner, ends, ratio, conductance } of this.circuit.transformers) {
      if (owner !== part) continue;
      const at = (values: Float64Array, node: number): number => (node < 0 ? 0 : (values[node] ?? 0));
      const [p, q, s, t] = ends;
      ir += conductance * ratio * (ratio * (at(re, p) - at(re, q)) - (at(re, s) - at(re, t)));
      ii += conductance * ratio * (ratio * (at(im, p) - at(im, q)) - (at(im, s) - at(im, t)));
    }
    return Math.sqrt(ir * ir + ii * ii);
  }

  dcAmps(part: number): number {
    const sense = this.circuit.senses.get(part);
    if (sense) return sense(this);
    const branch = this.circuit.branches[this.circuit.main[part] ?? -1];
    if (!branch) return 0;
    const on = !branch.switched || this.states[part] !== 0;
    const { re } = this.dc();
    const { a, b } = branch;
    const volts = (a < 0 ? 0 : (re[a] ?? 0)) - (b < 0 ? 0 : (re[b] ?? 0));
    return (on ? branch.on : branch.off).dc * volts - (on ? branch.driveDc : 0);
  }

  state(part: number): number {
    return this.states[part] ?? -1;
  }

  setting(setting: number): number {
    return this.settings[setting] ?? -1;
  }

  fact(fact: number): number {
    return this.circuit.facts[fact] ?? Number.NaN;
  }
}
