import { type Bench, type Part, partStates, type Situation, type Solved } from '../../engine/bench/index.ts';
import { compute, readFormula } from '../../engine/formula/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';

/**
 * Writes a bench as a netlist for an outside simulator, part by part from its file and the formulas of trees/benches/README.md, and from
 * nothing of the solver: only the positions of contacts, coils and fuses are taken from the settled circuit, as the simulator knows no relays.
 */
export type Netlist = {
  readonly lines: readonly string[];
  /** Simulator's node for each bench node that has a part on it; ground is 0. */
  readonly nodes: ReadonlyMap<string, string>;
  /** For each bench node, the node that its island is tied to ground at; 'ground' where the island is bonded. */
  readonly ties: ReadonlyMap<string, string>;
};

type Change = {
  mode?: string;
  value?: number;
  links: string[];
  moves: (readonly [string, string])[];
  state?: string;
};

const CLOSED = 0.02;
const GROUND = 'ground';

// IACS copper, AWG diameters, as in the handbook tables of tests/outside.
const copperOhms = (gauge: number, metres: number, celsius: number): number => {
  const diameter = 0.127e-3 * 92 ** ((36 - gauge) / 39);
  return ((1.7241e-8 * metres) / ((Math.PI * diameter ** 2) / 4)) * (1 + 0.00393 * (celsius - 20));
};

export function writeNetlist(bench: Bench, situation: Situation, solved: Solved, line: 'ac' | 'dc', test?: { into: string; outOf: string }): Netlist {
  const states = partStates(solved);
  const writer = new NetlistWriter(bench, situation, states, line, test !== undefined);
  for (const [name, part] of Object.entries(bench.parts)) writer.part(name, part);
  for (const [a, b] of situation.jumpers) writer.resistor('jumper', writer.point(a), writer.point(b), CLOSED);
  if (test) writer.current('meter', writer.point(test.outOf), writer.point(test.into));
  return writer.done();
}

class NetlistWriter {
  private readonly lines: string[] = [];
  private readonly numbers = new Map<string, string>([[GROUND, '0']]);
  private readonly joins: [string, string][] = [];
  private readonly changes = new Map<string, Change>();
  private count = 0;
  private readonly omega: number;

  constructor(
    private readonly bench: Bench,
    private readonly situation: Situation,
    private readonly states: Readonly<Record<string, string>>,
    private readonly lineKind: 'ac' | 'dc',
    private readonly dead: boolean,
  ) {
    this.omega = 2 * Math.PI * this.value(bench.frequency);
    for (const id of situation.faults) {
      const fault = bench.faults[id];
      if (fault) this.gather(fault.part, fault.becomes.trim());
    }
  }

  private gather(part: string, becomes: string): void {
    const change = this.changes.get(part) ?? { links: [], moves: [] };
    this.changes.set(part, change);
    const words = becomes.split(/\s+/);
    if (words[0] === 'moved') change.moves.push([words[2] ?? '', words[4] ?? '']);
    else if (words[0] === 'to') change.links.push(words[1] ?? '');
    else if (becomes === 'grounded') change.links.push(GROUND);
    else if (/^[a-z][a-z0-9-]*$/.test(becomes)) {
      change.mode = becomes;
      change.state = becomes;
    } else change.value = this.value(becomes);
  }

  private value(text: string): number {
    const formula = readFormula(text);
    const value = formula.ok ? compute(formula.value, { value: (name) => this.situation.facts[name], functions: TRADE_FUNCTIONS }) : formula;
    if (!value.ok) throw new Error(`no value for ${text}`);
    return value.value;
  }

  private optional(text: string | undefined, otherwise: number): number {
    return text === undefined ? otherwise : this.value(text);
  }

  /** A terminal, or a lead: its own loose end once lifted. */
  point(name: string): string {
    for (const part of Object.values(this.bench.parts)) {
      for (const [lead, on] of leadsOf(part)) if (lead === name && !this.situation.lifted.includes(lead)) return on;
    }
    return name;
  }

  /** A part's end on a node, with what was moved or lifted. */
  private end(name: string, part: Part, node: string): string {
    const move = this.changes.get(name)?.moves.find(([from]) => from === node);
    if (move) return move[1];
    const lead = leadsOf(part).find(([each, on]) => on === node && this.situation.lifted.includes(each));
    return lead ? lead[0] : node;
  }

  private number(node: string): string {
    let number = this.numbers.get(node);
    if (number === undefined) {
      number = `n${this.numbers.size}`;
      this.numbers.set(node, number);
    }
    return number;
  }

  private add(letter: string, rest: string, join?: readonly [string, string]): void {
    this.count += 1;
    this.lines.push(`${letter}${this.count} ${rest}`);
    if (join) this.joins.push([join[0], join[1]]);
  }

  resistor(_name: string, a: string, b: string, ohms: number): void {
    if (a !== b) this.add('R', `${this.number(a)} ${this.number(b)} ${ohms}`, [a, b]);
  }

  private impedance(name: string, a: string, b: string, ohms: number, reactance: number): void {
    if (this.lineKind === 'dc' || reactance === 0) {
      this.resistor(name, a, b, Math.max(ohms, 1e-3));
      return;
    }
    if (a === b) return;
    const middle = `${name}~x`;
    if (ohms > 0) {
      this.resistor(name, a, middle, ohms);
      this.add('L', `${this.number(middle)} ${this.number(b)} ${reactance / this.omega}`, [middle, b]);
    } else this.add('L', `${this.number(a)} ${this.number(b)} ${reactance / this.omega}`, [a, b]);
  }

  private capacitor(a: string, b: string, farads: number): void {
    if (this.lineKind === 'ac' && a !== b) this.add('C', `${this.number(a)} ${this.number(b)} ${farads}`, [a, b]);
  }

  current(_name: string, from: string, to: string): void {
    this.add('I', `${this.number(from)} ${this.number(to)} DC 1`);
  }

  part(name: string, part: Part): void {
    const change = this.changes.get(name);
    const mode = change?.mode;
    const gone = mode === 'absent';
    if ('between' in part) {
      const a = this.end(name, part, part.between[0]);
      const b = this.end(name, part, part.between[1]);
      this.twoEnded(name, part, a, b, change);
      for (const link of change?.links ?? []) this.resistor(`${name}~link`, link === a ? b : a, link, CLOSED);
    } else if (part.kind === 'transformer') {
      if (!gone) this.transformer(name, part, change);
      const a = this.end(name, part, part.primary[0]);
      for (const link of change?.links ?? []) this.resistor(`${name}~link`, a, link, CLOSED);
    }
  }

  private twoEnded(name: string, part: Part & { between: readonly [string, string] }, a: string, b: string, change: Change | undefined): void {
    const mode = change?.mode;
    const value = change?.value;
    if (mode === 'absent') return;
    const state = this.states[name];
    const simple = (ohms: number, reactance = 0): void => {
      if (mode === 'open') return;
      if (mode === 'shorted') this.resistor(name, a, b, CLOSED);
      else this.impedance(name, a, b, value ?? ohms, value === undefined ? reactance : 0);
    };
    switch (part.kind) {
      case 'source':
      case 'dc-source': {
        if (state !== 'live') return;
        const volts = value ?? this.value(part.volts);
        const dc = part.kind === 'dc-source';
        const phase = 'phase' in part ? (part.phase ?? 0) : 0;
        const [hot, back] = mode === 'swapped' ? [b, a] : [a, b];
        const here = !this.dead && dc === (this.lineKind === 'dc');
        if (here) {
          const behind = `${name}~e`;
          const drive = this.lineKind === 'ac' ? `DC 0 AC ${volts} ${phase}` : `DC ${volts}`;
          this.add('V', `${this.number(behind)} ${this.number(back)} ${drive}`, [behind, back]);
          this.resistor(name, hot, behind, this.optional(part.ohms, 0.3));
        } else this.resistor(name, hot, back, this.optional(part.ohms, 0.3));
        return;
      }
      case 'contact':
      case 'switch':
      case 'limit':
        if (state === 'closed') this.resistor(name, a, b, value ?? this.optional(part.ohms, CLOSED));
        return;
      case 'fuse':
        if (state === 'good') this.resistor(name, a, b, mode === 'shorted' ? CLOSED : (value ?? this.optional(part.ohms, CLOSED)));
        return;
      case 'wire': {
        const length = this.value(part.length);
        const celsius = part.temperature === undefined ? 20 : this.value(part.temperature) - 273.15;
        if (mode !== 'open') this.resistor(name, a, b, Math.max(value ?? copperOhms(this.value(part.gauge), length, celsius), 1e-4));
        const stray = part.stray?.split(/\s+to\s+/);
        if (stray?.[0] && stray[1]) {
          const half = (this.value(stray[0]) * length) / 2;
          this.capacitor(a, stray[1], half);
          this.capacitor(b, stray[1], half);
        }
        return;
      }
      case 'coil': {
        const rated = this.value(part.rated);
        const healthy = this.value(part.resistance);
        const va = this.value(state === 'pulled-in' ? part.va : (part['inrush-va'] ?? part.va));
        const reactance = Math.sqrt((rated ** 2 / va) ** 2 - healthy ** 2);
        if (mode === 'open') return;
        if (mode === 'shorted') this.resistor(name, a, b, CLOSED);
        else if (value === undefined) this.impedance(name, a, b, healthy, reactance);
        else this.impedance(name, a, b, value, value < healthy ? (reactance * value) / healthy : reactance);
        return;
      }
      case 'load': {
        if (state !== 'on') return;
        const size = this.optional(part.rated, 0) ** 2 / this.optional(part.va, 1);
        const factor = this.optional(part['power-factor'], 1);
        if (part.ohms !== undefined) simple(this.value(part.ohms));
        else simple(size * factor, size * Math.sqrt(1 - factor ** 2));
        return;
      }
      case 'resistor':
        simple(this.value(part.ohms));
        return;
      case 'thermistor':
        simple(this.value(`ntc(${part.ohms ?? '10 kohm'}, ${part.curve}, ${part.temperature})`));
        return;
      case 'flame':
        if (mode === 'shorted') this.resistor(name, a, b, CLOSED);
        else if (state === 'lit' && mode !== 'open') this.resistor(name, a, b, 3e7);
        return;
      case 'capacitor':
        if (mode === 'shorted') this.resistor(name, a, b, CLOSED);
        else if (mode !== 'open') this.capacitor(a, b, value ?? this.value(part.capacitance));
        return;
      case 'inductor': {
        const henry = this.value(part.inductance);
        if (mode === 'shorted') this.resistor(name, a, b, CLOSED);
        else if (mode !== 'open') this.impedance(name, a, b, this.optional(part.resistance, 0), this.omega * (value ?? henry));
      }
    }
  }

  private transformer(name: string, part: Part & { kind: 'transformer' }, change: Change | undefined): void {
    const mode = change?.mode;
    const at = (node: string): string => this.end(name, part, node);
    const [p, q] = [at(part.primary[0]), at(part.primary[1])];
    const [s, t] = [at(part.secondary[0]), at(part.secondary[1])];
    const [primaryText = '', ratedText = ''] = part.rated.split(/\s+to\s+/);
    const [primary, rated, va] = [this.value(primaryText), this.value(ratedText), this.value(part.va)];
    const noLoad = this.value(part['no-load']);
    const series = (noLoad - rated) / (va / rated);
    const magnetising = primary ** 2 / this.optional(part['no-load-va'], va / 10);
    const ratio = (change?.value ?? noLoad) / primary;
    const primaryOpen = mode === 'open' || mode === 'primary-open';
    const secondaryOpen = mode === 'secondary-open';
    if (this.lineKind === 'dc') {
      if (!primaryOpen) this.resistor(name, p, q, series / 2 / (noLoad / primary) ** 2);
      if (!secondaryOpen) this.resistor(name, s, t, series / 2);
    } else {
      if (!primaryOpen) this.impedance(`${name}~m`, p, q, 0, magnetising);
      if (!primaryOpen && !secondaryOpen) {
        // Ideal ratio: e = ratio · v(p, q) in the secondary, ratio · its current drawn by the primary.
        const [hot, back] = mode === 'swapped' ? [t, s] : [s, t];
        const [inside, sensed] = [`${name}~e`, `${name}~i`];
        this.add('E', `${this.number(inside)} ${this.number(back)} ${this.number(p)} ${this.number(q)} ${ratio}`, [inside, back]);
        this.add('V', `${this.number(inside)} ${this.number(sensed)} DC 0 AC 0`, [inside, sensed]);
        this.add('F', `${this.number(p)} ${this.number(q)} V${this.count} ${ratio}`, [p, q]);
        this.resistor(name, sensed, hot, series);
      }
      if (primaryOpen && !secondaryOpen) this.impedance(`${name}~s`, s, t, series, magnetising * ratio ** 2);
    }
    if (mode === 'shorted') this.resistor(`${name}~short`, s, t, CLOSED);
  }

  done(): Netlist {
    const names = [...this.numbers.keys()];
    const above = new Map(names.map((name) => [name, name]));
    const find = (name: string): string => {
      const up = above.get(name) ?? name;
      return up === name ? name : find(up);
    };
    for (const [a, b] of this.joins) {
      const [one, other] = [find(a), find(b)];
      // Ground stays on top of its island.
      if (other === GROUND) above.set(one, other);
      else above.set(other, one);
    }
    const lines = ['.options pivtol=1e-20 pivrel=1e-3', ...this.lines];
    const ties = new Map<string, string>();
    const tied = new Set<string>();
    for (const name of names) {
      const root = find(name);
      ties.set(name, root);
      // Far above the bench's own leak, and only there so that no node hangs on capacitors alone: with an island tied at one node, leaks would
      // all run through that node, which they do not where the island floats.
      if (name !== GROUND) lines.push(`Rleak${this.number(name)} ${this.number(name)} 0 1e15`);
      // An island that nothing bonds floats; where is no business of its inner volts, so it is tied at one node to keep the simulator exact.
      if (root === GROUND || tied.has(root)) continue;
      tied.add(root);
      lines.push(`Rtie${this.number(root)} ${this.number(root)} 0 1`);
    }
    return { lines, nodes: this.numbers, ties };
  }
}

function leadsOf(part: Part): readonly (readonly [lead: string, on: string])[] {
  if (!('lead' in part) || part.lead === undefined) return [];
  return (typeof part.lead === 'string' ? [part.lead] : part.lead).map((text) => {
    const [lead = '', on = ''] = text.split(' on ');
    return [lead, on] as const;
  });
}
