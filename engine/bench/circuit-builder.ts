/** What an edit or fault does to one part; several faults of one part are gathered in one. */
export type PartFault = {
  readonly open: boolean;
  readonly absent: boolean;
  readonly shorted: boolean;
  readonly swapped: boolean;
  readonly primaryOpen: boolean;
  readonly secondaryOpen: boolean;
  readonly stuck: 'open' | 'closed' | undefined;
  /** The changed main value, SI. */
  readonly value: number | undefined;
  readonly state: string | undefined;
};

/** A part as its stamp sees it. Nodes are numbers, -1 is ground; lifted leads and moved ends are already applied. */
export type StampedPart = {
  readonly index: number;
  readonly ends: readonly number[];
  /** SI, by the keys of the kind's `values`; what the file does not give is not there. */
  readonly values: Readonly<Record<string, number>>;
  readonly fault: PartFault;
};

/** Siemens: conductance and susceptance at the line frequency, and the conductance that DC sees. */
export type Admittance = { readonly re: number; readonly im: number; readonly dc: number };

/** Amperes forced from the second end to the first inside a branch (Norton form). */
export type Drive = { readonly re: number; readonly im: number; readonly dc: number };

export type BranchSpec = {
  readonly a: number;
  readonly b: number;
  /** While the part's state is not its first one, or always for a part without states. */
  readonly on: Admittance;
  /** While the part's state is its first one; an open circuit where absent. */
  readonly off?: Admittance;
  readonly drive?: Drive;
  /** Whether the part's state switches it; without, `on` holds always. */
  readonly switched?: boolean;
};

/** Volts and amps as conditions see them, on the solution so far. RMS magnitudes; DC signed. */
export type CircuitView = {
  /** 0 between two islands that nothing joins: a meter there reads nothing. */
  volts(a: number, b: number): number;
  dcVolts(a: number, b: number): number;
  amps(part: number): number;
  dcAmps(part: number): number;
  state(part: number): number;
  setting(setting: number): number;
  fact(fact: number): number;
};

export type Rule = (view: CircuitView) => boolean;

/** When a state is settled: contacts, coils and loads at once; a fuse when those are at rest; a sequence last. */
export type SettlingRank = 'now' | 'fuse' | 'sequence';

export type StateSpec = {
  readonly rank: SettlingRank;
  /** The state before power is applied, as an index into the kind's `states`. */
  readonly start: number;
  /** The state that the circuit as solved calls for; a state without it stays at its start. */
  readonly next?: (view: CircuitView) => number;
  /** How far a fuse is over its rating; of several the most overloaded blows first. */
  readonly stress?: (view: CircuitView) => number;
};

/** What a part stamps itself on. A part's first branch is the one whose current is the part's current. */
export type CircuitBuilder = {
  /** Radians per second of the line. */
  readonly omega: number;
  branch(part: StampedPart, branch: BranchSpec): void;
  /** An ideal transformer with `series` ohms in its secondary; ends: primary, primary, secondary, secondary. */
  transformer(part: StampedPart, ratio: number, series: number): void;
  state(part: StampedPart, state: StateSpec): void;
  /** A condition of this part, by the key of the kind's `conditions`. */
  rule(part: StampedPart, key: string): Rule;
  /** Where energy comes in: hot and return node, and the rms (or DC) volts it makes. */
  source(part: StampedPart, hot: number, back: number, volts: number): void;
  /** A DC current that the part reads in itself, for meters and conditions: a flame's rectified current. */
  senses(part: StampedPart, dcAmps: (view: CircuitView) => number): void;
  /** What an instrument reads at this part, SI, by kind of quantity. */
  place(part: StampedPart, quantity: string, reading: (view: CircuitView) => number): void;
};

/** Ω of a closed contact, switch or fuse, of a jumper and of a short. */
export const CLOSED_OHMS = 0.02;

/** Y = 1 / (R + jX); DC sees R alone. */
export function seriesAdmittance(ohms: number, reactance = 0): Admittance {
  const size = ohms ** 2 + reactance ** 2;
  return { re: ohms / size, im: -reactance / size, dc: 1 / ohms };
}

export const CLOSED: Admittance = seriesAdmittance(CLOSED_OHMS);
