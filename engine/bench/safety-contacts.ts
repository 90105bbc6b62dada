import { buildCircuit } from './circuit.ts';
import { NodeSets } from './node-sets.ts';
import type { PreparedBench } from './prepare.ts';
import { type Situation, withoutJumper } from './situation.ts';

const PASSES: ReadonlySet<string | undefined> = new Set(['wire', 'fuse', 'contact', 'switch', 'limit']);

/** The parts or signs that each safety contact guards, by the contact's name. */
export function safetyContacts({ index }: PreparedBench): Readonly<Record<string, readonly string[]>> {
  return Object.fromEntries(
    index.parts.flatMap(({ name, known: { spec } }) => {
      if (!('safety' in spec) || spec.safety === undefined) return [];
      return [[name, typeof spec.safety === 'string' ? [spec.safety] : spec.safety]];
    }),
  );
}

/**
 * The safety contacts that a jumper of a situation takes out of the circuit: those whose two ends it joins past them, straight or with the
 * wires, fuses and other contacts on the way. `situation` has the jumper in it.
 */
export function bypassedBy(prepared: PreparedBench, situation: Situation, a: string, b: string): readonly string[] {
  const joined = (edits: Situation, without: string): boolean => {
    const built = buildCircuit(prepared, edits);
    if (!built.ok) return false;
    const { circuit } = built;
    const guard = prepared.index.partNumber.get(without) ?? -1;
    const sets = new NodeSets(circuit.size + 1);
    for (const { a: one, b: other, part, on } of circuit.branches) {
      // Stray capacitance passes no DC; a jumper has no part.
      const passes = part < 0 || PASSES.has(prepared.index.parts[part]?.known.spec.kind);
      if (part !== guard && passes && on.dc !== 0) sets.join(one < 0 ? circuit.size : one, other < 0 ? circuit.size : other);
    }
    const branch = circuit.branches[circuit.main[guard] ?? -1];
    if (!branch) return false;
    return sets.find(branch.a < 0 ? circuit.size : branch.a) === sets.find(branch.b < 0 ? circuit.size : branch.b);
  };
  const before = withoutJumper(situation, a, b);
  return Object.keys(safetyContacts(prepared)).filter((name) => joined(situation, name) && !joined(before, name));
}
