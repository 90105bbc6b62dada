import { type Dimension, QUANTITY_KINDS } from '../quantity/index.ts';
import { readBecoming } from './becoming.ts';
import type { Bench } from './bench.ts';
import { GROUND, type Lead, leadOf } from './names.ts';
import { type KnownPart, knownPart } from './parts/part-kinds.ts';

export type IndexedPart = { readonly name: string; readonly known: KnownPart; readonly leads: readonly Lead[] };

/** A bench's names, numbered. Node -1 is ground; the loose ends of leads are nodes after those of the file. */
export type BenchIndex = {
  readonly bench: Bench;
  readonly parts: readonly IndexedPart[];
  readonly partNumber: ReadonlyMap<string, number>;
  readonly nodes: readonly string[];
  readonly nodeNumber: ReadonlyMap<string, number>;
  /** Each lead once, in the order of the file. */
  readonly leads: readonly Lead[];
  readonly settings: readonly { readonly name: string; readonly states: readonly string[] }[];
  readonly facts: readonly { readonly name: string; readonly dimension: Dimension }[];
  /** What `NAME is STATE` may say, by name: settings, parts and signs. */
  readonly states: ReadonlyMap<string, readonly string[]>;
  readonly dimensions: Readonly<Record<string, Dimension>>;
};

export const SIGN_STATES = ['no', 'yes'] as const;

const leadsOf = (spec: KnownPart['spec']): readonly Lead[] => {
  if (!('lead' in spec) || spec.lead === undefined) return [];
  return (typeof spec.lead === 'string' ? [spec.lead] : spec.lead).map(leadOf);
};

/** The states of a part with those that faults give it. */
function statesOf(name: string, known: KnownPart, bench: Bench): readonly string[] {
  if (known.spec.kind !== 'state') return known.states;
  const states = [...known.states];
  for (const fault of Object.values(bench.faults)) {
    if (fault.part !== name) continue;
    const becoming = readBecoming(fault.becomes);
    const state = becoming.as === 'state' ? becoming.state : becoming.as === 'mode' ? becoming.mode : undefined;
    if (state !== undefined && !states.includes(state)) states.push(state);
  }
  return states;
}

/** Numbers everything that a bench names. Total: names that clash keep the first, which the check reports. */
export function indexBench(bench: Bench): BenchIndex {
  const parts = Object.entries(bench.parts).map(([name, spec]): IndexedPart => ({ name, known: knownPart(spec), leads: leadsOf(spec) }));
  const partNumber = new Map(parts.map(({ name }, i) => [name, i]));
  const nodeNumber = new Map<string, number>([[GROUND, -1]]);
  const nodes: string[] = [];
  const add = (name: string): void => {
    if (nodeNumber.has(name)) return;
    nodeNumber.set(name, nodes.length);
    nodes.push(name);
  };
  bench.terminals.forEach(add);
  for (const { known } of parts) for (const end of known.ends) add(end.node);
  const leads: Lead[] = [];
  for (const lead of parts.flatMap((part) => part.leads)) {
    if (leads.some(({ name }) => name === lead.name)) continue;
    leads.push(lead);
    add(lead.name);
  }
  const states = new Map<string, readonly string[]>();
  for (const name of Object.keys(bench.signs)) states.set(name, SIGN_STATES);
  for (const { name, known } of parts) {
    const words = statesOf(name, known, bench);
    if (words.length > 0) states.set(name, words);
  }
  const settings = Object.entries(bench.settings).map(([name, words]) => ({ name, states: words }));
  for (const setting of settings) states.set(setting.name, setting.states);
  const facts = Object.entries(bench.facts).map(([name, fact]) => ({ name, dimension: QUANTITY_KINDS[fact.quantity].dimension as Dimension }));
  return {
    bench,
    parts,
    partNumber,
    nodes,
    nodeNumber,
    leads,
    settings,
    facts,
    states,
    dimensions: Object.fromEntries(facts.map(({ name, dimension }) => [name, dimension])),
  };
}
