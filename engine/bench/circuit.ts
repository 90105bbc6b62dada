import type { Becoming } from './becoming.ts';
import {
  type Admittance,
  type BranchSpec,
  type CircuitBuilder,
  type CircuitView,
  CLOSED,
  type PartFault,
  type StampedPart,
  type StateSpec,
} from './circuit-builder.ts';
import type { PreparedBench } from './prepare.ts';
import type { Situation } from './situation.ts';
import type { Unsolved } from './solution.ts';
import type { SparseFactor } from './sparse-factor.ts';

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

/** A bench's circuit with facts, faults, jumpers and lifted leads in it; settings and states are still open. */
export type Circuit = {
  readonly prepared: PreparedBench;
  readonly size: number;
  readonly facts: Float64Array;
  readonly branches: readonly Branch[];
  readonly transformers: readonly TransformerPiece[];
  readonly states: readonly (StateSpec | undefined)[];
  readonly sources: readonly SourcePiece[];
  readonly senses: ReadonlyMap<number, (view: CircuitView) => number>;
  readonly places: readonly PlacePiece[];
  /** Each part's first branch, -1 where it has none. */
  readonly main: Int32Array;
  readonly hasDc: boolean;
  readonly factor: SparseFactor;
  readonly lifted: ReadonlySet<string>;
};

const NONE: Admittance = { re: 0, im: 0, dc: 0 };
const SOUND: PartFault = {
  open: false,
  absent: false,
  shorted: false,
  swapped: false,
  primaryOpen: false,
  secondaryOpen: false,
  stuck: undefined,
  value: undefined,
  state: undefined,
};

type Edits = Pick<Situation, 'facts' | 'faults' | 'jumpers' | 'lifted'>;

/** Builds the circuit of an edited bench, or tells which name or value stands in the way. */
export function buildCircuit(prepared: PreparedBench, edits: Edits): { readonly ok: true; readonly circuit: Circuit } | Unsolved {
  const { index } = prepared;
  const unknown = unknownName(prepared, edits);
  if (unknown) return unknown;
  const facts = Float64Array.from(index.facts, ({ name }) => edits.facts[name] ?? Number.NaN);
  const given = factsOnly(facts);
  const lifted = new Set(edits.lifted);
  const faults = gatherFaults(prepared, edits.faults, given);

  const branches: Branch[] = [];
  const transformers: TransformerPiece[] = [];
  const states: (StateSpec | undefined)[] = index.parts.map(() => undefined);
  const sources: SourcePiece[] = [];
  const senses = new Map<number, (view: CircuitView) => number>();
  const places: PlacePiece[] = [];
  const main = new Int32Array(index.parts.length).fill(-1);

  const addBranch = (part: number, spec: BranchSpec): void => {
    const { a, b, on, drive } = spec;
    if (part >= 0 && main[part] === -1) main[part] = branches.length;
    branches.push({
      a,
      b,
      part,
      on,
      off: spec.switched ? (spec.off ?? NONE) : on,
      switched: spec.switched ?? false,
      driveRe: drive?.re ?? 0,
      driveIm: drive?.im ?? 0,
      driveDc: drive?.dc ?? 0,
    });
  };
  const builder: CircuitBuilder = {
    omega: prepared.omega,
    branch: (part, spec) => addBranch(part.index, spec),
    transformer(part, ratio, series) {
      const [p = -1, q = -1, s = -1, t = -1] = part.ends;
      transformers.push({ part: part.index, ends: [p, q, s, t], ratio, conductance: 1 / series });
    },
    state(part, state) {
      states[part.index] = state;
    },
    rule: (part, key) => prepared.parts[part.index]?.rules.get(key) ?? (() => false),
    source: (part, hot, back, volts) => void sources.push({ part: part.index, hot, back, volts }),
    senses: (part, dcAmps) => void senses.set(part.index, dcAmps),
    place: (part, quantity, reading) => void places.push({ part: part.index, quantity, reading }),
  };

  for (const [i, { name, known, leads }] of index.parts.entries()) {
    const values: Record<string, number> = {};
    for (const [key, value] of prepared.parts[i]?.values ?? []) {
      const si = value(given);
      if (!Number.isFinite(si)) return { ok: false, reason: 'no-value', part: name, field: key };
      values[key] = si;
    }
    const trouble = known.trouble(values);
    if (trouble) return { ok: false, reason: 'no-value', part: name, field: trouble.field, ...('why' in trouble && { why: trouble.why }) };
    const { fault, moves, links } = faults.get(i) ?? { fault: SOUND, moves: [], links: [] };
    const ends = known.ends.map(({ node, fixed }) => {
      if (fixed) return index.nodeNumber.get(node) ?? -1;
      const move = moves.find(({ from }) => from === node);
      if (move) return index.nodeNumber.get(move.to) ?? -1;
      const lead = leads.find((candidate) => candidate.on === node && lifted.has(candidate.name));
      return index.nodeNumber.get(lead ? lead.name : node) ?? -1;
    });
    const part: StampedPart = { index: i, ends, values, fault };
    if (known.spec.kind === 'state') {
      const at = fault.state === undefined ? 0 : (index.states.get(name)?.indexOf(fault.state) ?? 0);
      builder.state(part, { rank: 'now', start: Math.max(0, at) });
    }
    known.stamp(part, builder);
    const [first = -1, second = -1] = ends;
    for (const node of links) addBranch(-1, { a: node === first ? second : first, b: node, on: CLOSED });
  }
  for (const [a, b] of edits.jumpers) addBranch(-1, { a: pointNumber(prepared, a, lifted), b: pointNumber(prepared, b, lifted), on: CLOSED });

  // A piece with both ends on one node, as a fault can put it, carries nothing.
  const real = branches.map((branch) => (branch.a === branch.b ? { ...branch, on: NONE, off: NONE, driveRe: 0, driveIm: 0, driveDc: 0 } : branch));
  return {
    ok: true,
    circuit: {
      prepared,
      size: index.nodes.length,
      facts,
      branches: real,
      transformers,
      states,
      sources,
      senses,
      places,
      main,
      hasDc: real.some(({ driveDc }) => driveDc !== 0),
      factor: factorOf(prepared, real, transformers),
      lifted,
    },
  };
}

function unknownName({ bench, index, faults }: PreparedBench, edits: Edits): Unsolved | undefined {
  const leads = index.leads.map(({ name }) => name);
  const lists = [
    ['fact', Object.keys(edits.facts), Object.keys(bench.facts)],
    ['fault', edits.faults, [...faults.keys()]],
    ['lead', edits.lifted, leads],
    ['terminal', edits.jumpers.flat(), [...index.nodeNumber.keys()]],
  ] as const;
  for (const [what, names, known] of lists) {
    const name = names.find((candidate) => !known.includes(candidate));
    if (name !== undefined) return { ok: false, reason: 'unknown-name', what, name, known };
  }
  return undefined;
}

/** The node that a point of the bench is now: a terminal, another node, or a lead, which is its terminal until it is lifted. */
export function pointNumber({ index }: PreparedBench, point: string, lifted: ReadonlySet<string>): number {
  const lead = lifted.has(point) ? undefined : index.leads.find(({ name }) => name === point);
  return index.nodeNumber.get(lead ? lead.on : point) ?? -1;
}

type Gathered = {
  readonly fault: PartFault;
  readonly moves: readonly { readonly from: string; readonly to: string }[];
  readonly links: readonly number[];
};

function gatherFaults(prepared: PreparedBench, ids: readonly string[], facts: CircuitView): ReadonlyMap<number, Gathered> {
  const gathered = new Map<number, Gathered>();
  for (const id of ids) {
    const entry = prepared.faults.get(id);
    if (!entry) continue;
    const { part, becoming, value } = entry;
    const { fault, moves, links } = gathered.get(part) ?? { fault: SOUND, moves: [], links: [] };
    const node = (name: string): number => prepared.index.nodeNumber.get(name) ?? -1;
    const isState = prepared.index.parts[part]?.known.spec.kind === 'state';
    const change = changeOf(becoming, isState);
    gathered.set(part, {
      fault: { ...fault, ...change, ...(value && { value: value(facts) }) },
      moves: becoming.as === 'move' ? [...moves, becoming] : moves,
      links: becoming.as === 'link' ? [...links, node(becoming.node)] : change.grounded ? [...links, -1] : links,
    });
  }
  return gathered;
}

function changeOf(becoming: Becoming, isState: boolean): Partial<PartFault> & { readonly grounded?: boolean } {
  if (becoming.as === 'state') return { state: becoming.state };
  if (becoming.as !== 'mode') return {};
  const { mode } = becoming;
  if (isState) return { state: mode };
  switch (mode) {
    case 'open':
    case 'blown':
      return { open: true };
    case 'primary-open':
      return { primaryOpen: true };
    case 'secondary-open':
      return { secondaryOpen: true };
    case 'stuck-open':
      return { stuck: 'open' };
    case 'stuck-closed':
      return { stuck: 'closed' };
    case 'grounded':
      return { grounded: true };
    default:
      return { [mode]: true };
  }
}

// Values depend on facts alone; nothing is solved yet.
function factsOnly(facts: Float64Array): CircuitView {
  return {
    volts: () => Number.NaN,
    dcVolts: () => Number.NaN,
    amps: () => Number.NaN,
    dcAmps: () => Number.NaN,
    state: () => -1,
    setting: () => -1,
    fact: (i) => facts[i] ?? Number.NaN,
  };
}

/** The elimination order for these pieces: one for each set of joined pairs of nodes. */
export function factorOf(prepared: PreparedBench, branches: readonly Branch[], transformers: readonly TransformerPiece[]): SparseFactor {
  const pairs = joinedPairs(branches, transformers);
  return prepared.factorFor(pairs.join(' '), pairs);
}

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
