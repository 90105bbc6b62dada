import { blocksOf } from './blocks.ts';
import type { Circuit } from './circuit.ts';

/** Class 2 ends at 30 V (NEC article 725, UL 1585); above it is line voltage for every rule here. */
export const CLASS_2_VOLTS = 30;

export type LiveClass = 'line' | 'class-2' | 'dead';

const RANK: Readonly<Record<LiveClass, number>> = { dead: 0, 'class-2': 1, line: 2 };

export const worse = (a: LiveClass, b: LiveClass): boolean => RANK[a] > RANK[b];

export const classOf = (volts: number): LiveClass => (volts > CLASS_2_VOLTS ? 'line' : 'class-2');

/** What makes a point live: the source's part, and its class. */
export type LiveBy = { readonly class: LiveClass; readonly source: number };

// Stray capacitance and a flame pass microamperes: they upset a meter, and hurt nobody.
const FAINT_SIEMENS = 1e-6;

type Feed = { readonly part: number; readonly hot: number; readonly back: number; readonly volts: number; readonly edge: number };
type Winding = {
  readonly edge: number;
  readonly fedBy: number;
  readonly part: number;
  readonly hot: number;
  readonly back: number;
  readonly volts: number;
};

/**
 * Which points of a circuit a source can reach, by graph search over what conducts. Two questions are kept apart: what a hand or lead can
 * *touch* (a path from a source's hot side, which its return and ground end), and what a meter's own current can be *driven* through
 * (a loop that holds the meter and a source).
 */
export class LiveGraph {
  private readonly size: number;
  private readonly edges: (readonly [number, number])[] = [];
  private readonly faint = new Set<number>();
  private readonly windings: Winding[] = [];
  private readonly supplies: Feed[] = [];
  private readonly touched: (LiveBy | undefined)[];

  /** `conducts` tells of each branch whether it can conduct, `lives` of each source's part whether it can be on. */
  constructor(
    private readonly circuit: Circuit,
    conducts: (branch: number) => boolean,
    lives: (part: number) => boolean,
  ) {
    // Ground is the last node.
    this.size = circuit.size + 1;
    const node = (number: number): number => (number < 0 ? circuit.size : number);
    const edge = (a: number, b: number): number => this.edges.push([node(a), node(b)]) - 1;
    for (const [i, branch] of circuit.branches.entries()) {
      const carries = branch.on.re !== 0 || branch.on.im !== 0 || branch.on.dc !== 0;
      if (!carries || !conducts(i)) continue;
      const at = edge(branch.a, branch.b);
      if (Math.hypot(branch.on.re, branch.on.im) < FAINT_SIEMENS && branch.on.dc < FAINT_SIEMENS) this.faint.add(at);
    }
    for (const { part, ends, ratio } of circuit.transformers) {
      const [p, q, s, t] = ends;
      const primary = edge(p, q);
      const secondary = edge(s, t);
      const rated = circuit.sources.find((source) => source.part === part)?.volts ?? 0;
      this.windings.push({ edge: secondary, fedBy: primary, part, hot: node(s), back: node(t), volts: rated });
      // Fed from its secondary it makes line voltage on its primary.
      this.windings.push({ edge: primary, fedBy: secondary, part, hot: node(p), back: node(q), volts: rated / ratio });
    }
    for (const { part, hot, back, volts } of circuit.sources) {
      if (circuit.transformers.some((transformer) => transformer.part === part) || !lives(part) || volts === 0) continue;
      this.supplies.push({ part, hot: node(hot), back: node(back), volts, edge: edge(hot, back) });
    }
    this.touched = new Array<LiveBy | undefined>(this.size).fill(undefined);
    for (const feed of [...this.supplies, ...this.fedWindings(blocksOf(this.size, this.edges))]) this.reach(feed);
  }

  /** Windings that a source can feed, straight or through other transformers. */
  private fedWindings(block: Int32Array): readonly Winding[] {
    const live = new Set<number>(this.supplies.map(({ edge }) => block[edge] ?? -1));
    const fed: Winding[] = [];
    for (let grown = true; grown; ) {
      grown = false;
      for (const winding of this.windings) {
        // One transformer is not fed by itself: its other winding must be live from elsewhere, and not be counted yet.
        if (fed.some(({ part }) => part === winding.part) || !live.has(block[winding.fedBy] ?? -1)) continue;
        fed.push(winding);
        live.add(block[winding.edge] ?? -1);
        grown = true;
      }
    }
    return fed;
  }

  private reach({ part, hot, back, volts }: Pick<Feed, 'part' | 'hot' | 'back' | 'volts'>): void {
    const by: LiveBy = { class: classOf(volts), source: part };
    const around = this.neighbours();
    const seen = new Set<number>([hot]);
    const queue = [hot];
    for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
      const before = this.touched[node];
      if (!before || worse(by.class, before.class)) this.touched[node] = by;
      // The return side and earth are where a hot path ends.
      if (node === back || node === this.circuit.size) continue;
      for (const other of around[node] ?? []) {
        if (seen.has(other)) continue;
        seen.add(other);
        queue.push(other);
      }
    }
  }

  private adjacency: (readonly number[])[] | undefined;

  private neighbours(): readonly (readonly number[])[] {
    if (!this.adjacency) {
      const around: number[][] = Array.from({ length: this.size }, () => []);
      for (const [i, [a, b]] of this.edges.entries()) {
        if (this.faint.has(i)) continue;
        around[a]?.push(b);
        around[b]?.push(a);
      }
      this.adjacency = around;
    }
    return this.adjacency;
  }

  /** What a hand or lead at a node can touch; undefined where no source reaches it. Node -1 is ground. */
  touch(node: number): LiveBy | undefined {
    return this.touched[node < 0 ? this.circuit.size : node];
  }

  /** What can drive a current through a meter between two nodes; undefined where nothing can. */
  drive(a: number, b: number): LiveBy | undefined {
    const meter: readonly [number, number] = [a < 0 ? this.circuit.size : a, b < 0 ? this.circuit.size : b];
    if (meter[0] === meter[1]) return undefined;
    const block = blocksOf(this.size, [...this.edges, meter]);
    const own = block[this.edges.length];
    let worst: LiveBy | undefined;
    for (const { part, volts, edge } of [...this.supplies, ...this.fedWindings(block)]) {
      if (block[edge] !== own || own === -1) continue;
      const by: LiveBy = { class: classOf(volts), source: part };
      if (!worst || worse(by.class, worst.class)) worst = by;
    }
    return worst;
  }
}
