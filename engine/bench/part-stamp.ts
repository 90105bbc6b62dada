import {
  type Admittance,
  type BranchSpec,
  type CircuitBuilder,
  type CircuitView,
  CLOSED,
  type StampedPart,
  type StateSpec,
} from './circuit-builder.ts';
import { type Gathered, SOUND } from './gathered-faults.ts';
import type { PreparedBench } from './prepare.ts';

/** One two-ended piece of a circuit. Nodes are numbers, -1 is ground; `part` is -1 for a jumper. */
export type Branch = {
  readonly a: number;
  readonly b: number;
  readonly part: number;
  readonly on: Admittance;
  readonly off: Admittance;
  readonly switched: boolean;
  readonly driveRe: number;
  readonly driveIm: number;
  readonly driveDc: number;
};

export type TransformerPiece = {
  readonly part: number;
  readonly ends: readonly [number, number, number, number];
  readonly ratio: number;
  readonly conductance: number;
};

export type SourcePiece = { readonly part: number; readonly hot: number; readonly back: number; readonly volts: number };

export type PlacePiece = { readonly part: number; readonly quantity: string; readonly reading: (view: CircuitView) => number };

/** What one part puts on a circuit. */
export type PartStamp = {
  readonly branches: readonly Branch[];
  readonly transformers: readonly TransformerPiece[];
  readonly sources: readonly SourcePiece[];
  readonly places: readonly PlacePiece[];
  readonly state: StateSpec | undefined;
  readonly senses: ((view: CircuitView) => number) | undefined;
};

const NONE: Admittance = { re: 0, im: 0, dc: 0 };

/** A piece that conducts always, such as a jumper or a short; `part` is -1 where it is no part's own. */
export function branchOf(part: number, { a, b, on, off, drive, switched }: BranchSpec): Branch {
  // A piece with both ends on one node, as a fault can put it, carries nothing.
  if (a === b) return { a, b, part, on: NONE, off: NONE, switched: switched ?? false, driveRe: 0, driveIm: 0, driveDc: 0 };
  return {
    a,
    b,
    part,
    on,
    off: switched ? (off ?? NONE) : on,
    switched: switched ?? false,
    driveRe: drive?.re ?? 0,
    driveIm: drive?.im ?? 0,
    driveDc: drive?.dc ?? 0,
  };
}

const NOTHING_WRONG: Gathered = { fault: SOUND, moves: [], links: [] };

/** Stamps one part with what is wrong with it and which of its leads are lifted. */
export function stampPart(
  prepared: PreparedBench,
  index: number,
  values: Readonly<Record<string, number>>,
  { fault, moves, links }: Gathered = NOTHING_WRONG,
  lifted: ReadonlySet<string> = NONE_LIFTED,
): PartStamp {
  const branches: Branch[] = [];
  const transformers: TransformerPiece[] = [];
  const sources: SourcePiece[] = [];
  const places: PlacePiece[] = [];
  let state: StateSpec | undefined;
  let senses: PartStamp['senses'];
  const builder: CircuitBuilder = {
    omega: prepared.omega,
    branch: (part, spec) => void branches.push(branchOf(part.index, spec)),
    transformer(part, ratio, series) {
      const [p = -1, q = -1, s = -1, t = -1] = part.ends;
      transformers.push({ part: part.index, ends: [p, q, s, t], ratio, conductance: 1 / series });
    },
    state(_part, spec) {
      state = spec;
    },
    rule: (part, key) => prepared.parts[part.index]?.rules.get(key) ?? (() => false),
    source: (part, hot, back, volts) => void sources.push({ part: part.index, hot, back, volts }),
    senses(_part, dcAmps) {
      senses = dcAmps;
    },
    place: (part, quantity, reading) => void places.push({ part: part.index, quantity, reading }),
  };
  const indexed = prepared.index.parts[index];
  if (!indexed) return { branches, transformers, sources, places, state, senses };
  const { name, known, leads } = indexed;
  const numberOf = (node: string): number => prepared.index.nodeNumber.get(node) ?? -1;
  const ends = known.ends.map(({ node, fixed }) => {
    if (fixed) return numberOf(node);
    const move = moves.find(({ from }) => from === node);
    const lead = leads.find((candidate) => candidate.on === node && lifted.has(candidate.name));
    return numberOf(move?.to ?? lead?.name ?? node);
  });
  const part: StampedPart = { index, ends, values, fault };
  if (known.spec.kind === 'state') {
    const at = fault.state === undefined ? 0 : (prepared.index.states.get(name)?.indexOf(fault.state) ?? 0);
    state = { rank: 'now', start: Math.max(0, at) };
  }
  known.stamp(part, builder);
  const [first = -1, second = -1] = ends;
  for (const node of links) branches.push(branchOf(-1, { a: node === first ? second : first, b: node, on: CLOSED }));
  return { branches, transformers, sources, places, state, senses };
}

const NONE_LIFTED: ReadonlySet<string> = new Set();

/**
 * The last sound stamp of each part. Most parts of a circuit are sound and have the values they had in the circuit before; they are
 * stamped once.
 */
export class SoundStamps {
  private readonly kept: ({ readonly values: Readonly<Record<string, number>>; readonly stamp: PartStamp } | undefined)[] = [];

  stamp(prepared: PreparedBench, index: number, values: Readonly<Record<string, number>>): PartStamp {
    const before = this.kept[index];
    if (before && (before.values === values || sameValues(before.values, values))) return before.stamp;
    const stamp = stampPart(prepared, index, values);
    this.kept[index] = { values, stamp };
    return stamp;
  }
}

function sameValues(a: Readonly<Record<string, number>>, b: Readonly<Record<string, number>>): boolean {
  for (const key in a) if (a[key] !== b[key]) return false;
  return true;
}
