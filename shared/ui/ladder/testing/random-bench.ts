import fc from 'fast-check';
import type { Bench, Part } from '../../../../engine/bench/index.ts';
import type { LadderState, MeterLeads } from '../ladder-state.ts';

const PAIR_KINDS = ['contact', 'switch', 'limit', 'wire', 'coil', 'load', 'resistor', 'fuse', 'thermistor', 'flame', 'source', 'dc-source'] as const;

type PairKind = (typeof PAIR_KINDS)[number];

/** A part of a kind between two nodes; its values are usual and do not matter to a drawing. */
export function partBetween(kind: PairKind, between: [string, string], more: { readonly label?: string; readonly lead?: string } = {}): Part {
  const common = { between, ...more };
  switch (kind) {
    case 'contact':
    case 'switch':
      return { kind, ...common, 'closed-when': 'call is on' };
    case 'limit':
      return { kind, ...common, 'closed-when': 'call is off', safety: 'p0' };
    case 'wire':
      return { kind, ...common, gauge: '18 AWG', length: '10 ft' };
    case 'coil':
      return { kind, ...common, rated: '24 V', va: '10 VA', resistance: '30 ohm' };
    case 'load':
    case 'resistor':
      return { kind, ...common, ohms: '600 ohm' };
    case 'fuse':
      return { kind, ...common, rating: '3 A' };
    case 'thermistor':
      return { kind, ...common, curve: 'type-2', temperature: '25 °C' };
    case 'flame':
      return { kind, ...common, amps: '3 uA', rated: '120 V', 'lit-when': 'call is on' };
    case 'source':
    case 'dc-source':
      return { kind, ...common, volts: '24 V' };
  }
}

export const transformerBetween = (primary: [string, string], secondary: [string, string]): Part => ({
  kind: 'transformer',
  primary,
  secondary,
  rated: '120 V to 24 V',
  va: '40 VA',
  'no-load': '27 V',
});

/** A bench of parts, with every node that is named a terminal unless it is left out. */
export function benchOf(parts: readonly Part[], terminals?: readonly string[]): Bench {
  const nodes = parts.flatMap((part) => (part.kind === 'transformer' ? [...part.primary, ...part.secondary] : 'between' in part ? part.between : []));
  return {
    title: 'Any circuit',
    frequency: '60 Hz',
    terminals: [...new Set(terminals ?? nodes.filter((node) => node !== 'ground'))],
    settings: { call: ['off', 'on'] },
    facts: {},
    parts: Object.fromEntries(parts.map((part, i) => [`p${i}`, part])),
    signs: {},
    faults: {},
  };
}

const label = fc.option(fc.string({ unit: fc.constantFrom('a', 'B', 'm', 'W', 'i', ' ', '-', '3', 'µ'), minLength: 1, maxLength: 60 }), {
  nil: undefined,
});

const nodesOf = (count: number): fc.Arbitrary<string> => fc.constantFrom(...Array.from({ length: count }, (_, i) => `N${i}`), 'ground');

function anyPart(nodes: fc.Arbitrary<string>): fc.Arbitrary<Part> {
  const pair = fc.tuple(nodes, nodes);
  const between = fc.tuple(fc.constantFrom(...PAIR_KINDS), pair, label).map(([kind, ends, text]) => {
    return partBetween(kind, ends, text?.trim() ? { label: text } : {});
  });
  const state: Part = { kind: 'state', is: 'open' };
  return fc.oneof(
    { weight: 12, arbitrary: between },
    { weight: 1, arbitrary: fc.tuple(pair, pair).map(([primary, secondary]) => transformerBetween(primary, secondary)) },
    { weight: 1, arbitrary: fc.constant(state) },
  );
}

/** Any parts between any nodes: bridges, dead ends, islands, parts on one node, terminals that nothing touches. */
export const anyBench: fc.Arbitrary<Bench> = fc.integer({ min: 1, max: 9 }).chain((count) => {
  const nodes = nodesOf(count);
  return fc
    .tuple(
      fc.array(anyPart(nodes), { minLength: 1, maxLength: 22 }),
      fc.subarray(
        Array.from({ length: count + 1 }, (_, i) => `N${i}`),
        { minLength: 1 },
      ),
    )
    .map(([parts, terminals]) => benchOf(parts.map(withLead), terminals));
});

/** Every third part has a lead that can be lifted. */
const withLead = (part: Part, i: number): Part =>
  i % 3 === 0 && 'between' in part && part.between[0] !== part.between[1] ? { ...part, lead: `lead-${i} on ${part.between[i % 2]}` } : part;

/** Names of a bench's leads. */
export const leadsIn = (bench: Bench): readonly string[] =>
  Object.values(bench.parts).flatMap((part) => ('lead' in part && typeof part.lead === 'string' ? [part.lead.replace(/ on .*/, '')] : []));

/** What may be done to a bench and known of it, all at once. */
export function anyState(bench: Bench): fc.Arbitrary<{ readonly state: LadderState; readonly leads: MeterLeads }> {
  const terminal = fc.constantFrom(...bench.terminals);
  const parts = Object.keys(bench.parts);
  const lifted = fc.subarray([...leadsIn(bench)]);
  const states = fc.dictionary(fc.constantFrom(...parts), fc.constantFrom('open', 'closed', 'pulled-in', 'blown', 'dead', 'off', 'lit'));
  const faults = fc.array(
    fc.record({ part: fc.constantFrom(...parts), word: fc.constantFrom('open', 'missing', '250 kΩ', 'shorted to C'), breaks: fc.boolean() }),
    {
      maxLength: 2,
    },
  );
  const jumpers = fc.uniqueArray(fc.record({ from: terminal, to: terminal, planned: fc.boolean() }), {
    maxLength: 2,
    selector: ({ from, to }) => [from, to].sort().join(' '),
  });
  const forced = fc.constantFrom<Record<string, string>>({}, { call: 'on' });
  return fc
    .tuple(fc.record({ parts: states, lifted, faults, jumpers, forced }), terminal, terminal)
    .map(([state, red, black]) => ({ state, leads: { red, black } }));
}

type Shape = { readonly series?: readonly Shape[]; readonly parallel?: readonly Shape[] };

const shape = fc.letrec<{ shape: Shape }>((tie) => ({
  shape: fc.oneof(
    { maxDepth: 3, withCrossShrink: true },
    fc.constant<Shape>({}),
    fc.array(tie('shape'), { minLength: 2, maxLength: 5 }).map((series): Shape => ({ series })),
    fc.array(tie('shape'), { minLength: 2, maxLength: 3 }).map((parallel): Shape => ({ parallel })),
  ),
})).shape;

/** A control circuit as crews meet them: a transformer, and rungs of contacts and loads between its rails. */
export const controlBench: fc.Arbitrary<Bench> = fc
  .tuple(fc.array(shape, { minLength: 1, maxLength: 5 }), fc.array(fc.constantFrom(...PAIR_KINDS.slice(0, 9)), { minLength: 40, maxLength: 40 }))
  .map(([rungs, kinds]) => {
    const parts: Part[] = [partBetween('source', ['L1', 'N']), transformerBetween(['L1', 'N'], ['R', 'C']), partBetween('wire', ['C', 'ground'])];
    let nodes = 0;
    const lay = (piece: Shape, from: string, to: string): void => {
      if (piece.series) {
        const inner = piece.series.slice(1).map(() => `M${nodes++}`);
        const stops = [from, ...inner, to];
        piece.series.forEach((one, i) => void lay(one, stops[i] ?? from, stops[i + 1] ?? to));
      } else if (piece.parallel) for (const branch of piece.parallel) lay(branch, from, to);
      else parts.push(partBetween(kinds[parts.length % kinds.length] ?? 'load', [from, to]));
    };
    for (const rung of rungs) lay(rung, 'R', 'C');
    return benchOf(parts);
  });
