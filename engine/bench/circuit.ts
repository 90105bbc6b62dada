import { type CircuitView, CLOSED, type SettlingRank, type StateSpec } from './circuit-builder.ts';
import type { CircuitShape } from './circuit-shape.ts';
import { gatherFaults } from './gathered-faults.ts';
import { type Branch, branchOf, type PlacePiece, type SourcePiece, stampPart, type TransformerPiece } from './part-stamp.ts';
import type { PreparedBench, PreparedPart } from './prepare.ts';
import type { Situation } from './situation.ts';
import type { Unsolved } from './solution.ts';

/** A bench's circuit with facts, faults, jumpers and lifted leads in it; settings and states are still open. */
export type Circuit = {
  readonly prepared: PreparedBench;
  /** Number of nodes, ground not counted. */
  readonly size: number;
  readonly facts: readonly number[];
  readonly branches: readonly Branch[];
  readonly transformers: readonly TransformerPiece[];
  readonly states: readonly (StateSpec | undefined)[];
  readonly sources: readonly SourcePiece[];
  readonly senses: ReadonlyMap<number, (view: CircuitView) => number>;
  readonly places: readonly PlacePiece[];
  /** Each part's first branch, -1 where it has none. */
  readonly main: readonly number[];
  /** Whether a part's state switches a branch. */
  readonly electrical: readonly boolean[];
  /** The parts whose state can change, by when it is settled. */
  readonly ranked: Readonly<Record<SettlingRank, readonly number[]>>;
  readonly hasDc: boolean;
  readonly shape: CircuitShape;
  readonly lifted: ReadonlySet<string>;
};

type Edits = Pick<Situation, 'facts' | 'faults' | 'jumpers' | 'lifted'>;

/** Builds the circuit of an edited bench, or tells which name or value stands in the way. */
export function buildCircuit(prepared: PreparedBench, edits: Edits): { readonly ok: true; readonly circuit: Circuit } | Unsolved {
  const { index } = prepared;
  const unknown = unknownName(prepared, edits);
  if (unknown) return unknown;
  const facts = index.facts.map(({ name }) => edits.facts[name] ?? Number.NaN);
  const given = factsOnly(facts);
  const lifted = new Set(edits.lifted);
  const faults = gatherFaults(prepared, edits.faults, given);

  const branches: Branch[] = [];
  const transformers: TransformerPiece[] = [];
  const sources: SourcePiece[] = [];
  const places: PlacePiece[] = [];
  const states: (StateSpec | undefined)[] = [];
  const senses = new Map<number, (view: CircuitView) => number>();
  const main: number[] = [];
  const electrical: boolean[] = [];
  const ranked: Record<SettlingRank, number[]> = { now: [], fuse: [], sequence: [] };
  let hasDc = false;

  for (let i = 0; i < index.parts.length; i += 1) {
    const part = prepared.parts[i];
    const values = valuesOf(part, given);
    const trouble = troubleOf(prepared, i, values);
    if (trouble) return trouble;
    const wrong = faults.get(i);
    const asLanded = lifted.size === 0 || !index.parts[i]?.leads.some(({ name }) => lifted.has(name));
    const stamp = wrong || !asLanded ? stampPart(prepared, i, values, wrong, lifted) : prepared.stamps.stamp(prepared, i, values);
    main.push(stamp.branches[0]?.part === i ? branches.length : -1);
    electrical.push(stamp.branches.some(({ switched }) => switched));
    for (const branch of stamp.branches) {
      branches.push(branch);
      hasDc ||= branch.driveDc !== 0;
    }
    for (const piece of stamp.transformers) transformers.push(piece);
    for (const piece of stamp.sources) sources.push(piece);
    for (const piece of stamp.places) places.push(piece);
    states.push(stamp.state);
    if (stamp.state?.next) ranked[stamp.state.rank].push(i);
    if (stamp.senses) senses.set(i, stamp.senses);
  }
  for (const [a, b] of edits.jumpers) {
    branches.push(branchOf(-1, { a: pointNumber(prepared, a, lifted), b: pointNumber(prepared, b, lifted), on: CLOSED }));
  }
  const edited =
    edits.faults.length + edits.jumpers.length + edits.lifted.length === 0 ? '' : JSON.stringify([edits.faults, edits.jumpers, edits.lifted]);
  return {
    ok: true,
    circuit: {
      prepared,
      size: index.nodes.length,
      facts,
      branches,
      transformers,
      states,
      sources,
      senses,
      places,
      main,
      electrical,
      ranked,
      hasDc,
      shape: prepared.shapes.forEdits(edited, branches, transformers),
      lifted,
    },
  };
}

function valuesOf(part: PreparedPart | undefined, given: CircuitView): Readonly<Record<string, number>> {
  if (!part) return {};
  if (part.values.length === 0) return part.constants;
  const values = { ...part.constants };
  for (const [key, value] of part.values) values[key] = value(given);
  return values;
}

/** Values without a fact in them were judged with the bench; the others can be beyond what a formula takes. */
function troubleOf({ parts, index }: PreparedBench, i: number, values: Readonly<Record<string, number>>): Unsolved | undefined {
  const indexed = index.parts[i];
  const part = parts[i];
  if (!indexed || !part || part.values.length === 0) return undefined;
  const missing = part.values.find(([key]) => !Number.isFinite(values[key]));
  if (missing) return { ok: false, reason: 'no-value', part: indexed.name, field: missing[0] };
  const trouble = indexed.known.trouble(values);
  return trouble && { ok: false, reason: 'no-value', part: indexed.name, field: trouble.field, ...('why' in trouble && { why: trouble.why }) };
}

function unknownName({ known }: PreparedBench, edits: Edits): Unsolved | undefined {
  const tell = (what: keyof typeof known, names: readonly string[]): Unsolved | undefined => {
    const name = names.find((candidate) => !known[what].has(candidate));
    return name === undefined ? undefined : { ok: false, reason: 'unknown-name', what, name, known: [...known[what]] };
  };
  return (
    tell('fact', Object.keys(edits.facts)) ?? tell('fault', edits.faults) ?? tell('lead', edits.lifted) ?? tell('terminal', edits.jumpers.flat())
  );
}

/** The node that a point of the bench is now: a terminal, another node, or a lead, which is its terminal until it is lifted. */
export function pointNumber({ index }: PreparedBench, point: string, lifted: ReadonlySet<string>): number {
  const lead = lifted.has(point) ? undefined : index.leads.find(({ name }) => name === point);
  return index.nodeNumber.get(lead ? lead.on : point) ?? -1;
}

// Values depend on facts alone; nothing is solved yet.
function factsOnly(facts: readonly number[]): CircuitView {
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
