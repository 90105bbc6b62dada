import type { PreparedBench } from '../../bench/index.ts';
import { jumperKey } from '../../tree/index.ts';

/** How two points lie to each other for somebody with two leads. */
export type PairKind = 'across-a-part' | 'to-common' | 'apart';

/**
 * What a tech knows of a circuit's points without a reading: which are commons (a source's return, ground, and what a wire joins to
 * them), and which two stand on either side of one part.
 */
export class CommonPoints {
  readonly terminals: readonly string[];
  readonly commons: ReadonlySet<string>;
  private readonly joined: ReadonlySet<string>;
  private readonly circuits: ReadonlyMap<string, string>;
  private readonly earthed: ReadonlySet<string>;
  private readonly partsAt: ReadonlyMap<string, number>;

  constructor({ bench, index }: PreparedBench) {
    this.terminals = bench.terminals;
    const joined = new Set<string>();
    const partsAt = new Map<string, number>();
    const wires: (readonly [string, string])[] = [];
    const returns = new Set<string>(['ground']);
    const leader = new Map<string, string>();
    const circuit = (node: string): string => {
      const up = leader.get(node) ?? node;
      return up === node ? node : circuit(up);
    };
    for (const { known } of index.parts) {
      const { spec } = known;
      const ends = known.ends.map(({ node }) => node);
      for (const end of ends) partsAt.set(end, (partsAt.get(end) ?? 0) + 1);
      // A transformer joins each winding's two ends, and not the windings; ground joins nothing for a hand with two leads.
      for (let i = 0; i + 1 < ends.length; i += 2) {
        const [a = '', b = ''] = [ends[i], ends[i + 1]];
        joined.add(jumperKey(a, b));
        if (a !== 'ground' && b !== 'ground') leader.set(circuit(a), circuit(b));
      }
      if (spec.kind === 'wire') wires.push([ends[0] ?? '', ends[1] ?? '']);
      if (spec.kind === 'source' || spec.kind === 'dc-source') returns.add(ends[1] ?? '');
      if (spec.kind === 'transformer') for (const end of [ends[1], ends[3]]) returns.add(end ?? '');
    }
    const earthed = new Set<string>();
    for (const ends of wires) for (const [i, end] of ends.entries()) if (ends[1 - i] === 'ground') earthed.add(end);
    // A ground screw stands for itself; a bonded common belongs to its circuit.
    for (const end of earthed) if (bench.terminals.some((other) => other !== end && circuit(other) === circuit(end))) earthed.delete(end);
    for (let grown = true; grown; ) {
      grown = false;
      for (const [a, b] of wires) {
        if (returns.has(a) === returns.has(b)) continue;
        returns.add(a).add(b);
        grown = true;
      }
    }
    this.joined = joined;
    // A lifted lead is of the circuit that it was lifted from.
    this.circuits = new Map([
      ...bench.terminals.map((terminal) => [terminal, circuit(terminal)] as const),
      ...index.leads.map(({ name, on }) => [name, circuit(on)] as const),
    ]);
    this.earthed = earthed;
    this.partsAt = partsAt;
    this.commons = new Set(bench.terminals.filter((terminal) => returns.has(terminal)));
  }

  kind(a: string, b: string): PairKind {
    if (this.joined.has(jumperKey(a, b))) return 'across-a-part';
    return this.commons.has(a) || this.commons.has(b) ? 'to-common' : 'apart';
  }

  /** Whether two points are of one circuit, so that a reading between them means something by itself: line and control volts are not mixed. */
  areOfOneCircuit(a: string, b: string): boolean {
    return this.circuits.get(a) === this.circuits.get(b) || this.earthed.has(a) || this.earthed.has(b);
  }

  /** The common that a circuit's readings are usually taken to: the one that most hangs on. */
  usualCommon(point: string): string | undefined {
    const circuit = this.circuits.get(point);
    const of = [...this.commons].filter((common) => this.circuits.get(common) === circuit);
    return of.reduce<string | undefined>((most, common) => (this.hangOn(common) > this.hangOn(most) ? common : most), undefined);
  }

  private hangOn(point: string | undefined): number {
    return point === undefined ? 0 : (this.partsAt.get(point) ?? 0);
  }

  /** The red lead first: the common takes the black one. */
  leads(a: string, b: string): readonly [string, string] {
    const isBlack = (point: string): number => Number(this.commons.has(point)) + Number(this.usualCommon(point) === point);
    return isBlack(a) > isBlack(b) ? [b, a] : [a, b];
  }
}
