import { blocksOf } from './blocks.ts';
import type { Circuit } from './circuit.ts';
import { NodeSets } from './node-sets.ts';

/** Class 2 ends at 30 V (NEC article 725, UL 1585); above it is line voltage for every rule here. */
export const CLASS_2_VOLTS = 30;

export type LiveClass = 'line' | 'class-2' | 'dead';

const RANK: Readonly<Record<LiveClass, number>> = { dead: 0, 'class-2': 1, line: 2 };

export const worse = (a: LiveClass, b: LiveClass): boolean => RANK[a] > RANK[b];

export const classOf = (volts: number): LiveClass => (volts > CLASS_2_VOLTS ? 'line' : 'class-2');

/** What makes a point live: the source's part, and its class. */
export type LiveBy = { readonly class: LiveClass; readonly source: number };

/** Whether a source can be on: surely, never, or only if one of these nodes is live, as a board's own supply is. */
export type CanLive = boolean | readonly number[];

// A flame and the stray capacitance between wires pass microamperes: they upset a meter, and hurt nobody. A megohm from a line terminal counts.
const FAINT_SIEMENS = 2e-7;
const FAINT_STRAY_SIEMENS = 5e-6;
// What joins a pole to earth for good: wires and closed contacts, not loads.
const SOLID_SIEMENS = 0.1;

type Feed = { readonly part: number; readonly hot: number; readonly back: number; readonly volts: number; readonly edge: number };
type Winding = Feed & { readonly fedBy: number };
type Edge = readonly [number, number];

/**
 * Which points of a circuit a source can reach, by graph search over what conducts. Two questions are kept apart: what a hand or lead can
 * *touch* (a path from a source's hot side, which its return and ground end), and what a meter's own current can be *driven* through
 * (a loop that holds the meter and a source).
 */
export class LiveGraph {
  /** Ground is the last node. */
  private readonly ground: number;
  private readonly edges: Edge[] = [];
  private readonly faint = new Set<number>();
  private readonly solid: NodeSets;
  private readonly windings: Winding[] = [];
  private supplies: readonly Feed[] = [];
  private fed: readonly Winding[] = [];
  private touched: readonly (LiveBy | undefined)[] = [];

  /** `conducts` tells of each branch whether it can conduct (not asked for sources), `lives` of each source's part whether it can be on. */
  constructor(circuit: Circuit, conducts: (branch: number) => boolean, lives: (part: number) => CanLive) {
    this.ground = circuit.size;
    this.solid = new NodeSets(circuit.size + 1);
    const sourceParts = new Set(circuit.sources.map(({ part }) => part));
    const isTransformer = new Set(circuit.transformers.map(({ part }) => part));
    for (const [i, { a, b, part, on }] of circuit.branches.entries()) {
      const siemens = Math.max(Math.hypot(on.re, on.im), on.dc);
      if (siemens === 0 || (sourceParts.has(part) && !isTransformer.has(part)) || !conducts(i)) continue;
      const edge = this.edge(a, b);
      if (siemens < (on.dc === 0 && on.re === 0 ? FAINT_STRAY_SIEMENS : FAINT_SIEMENS)) this.faint.add(edge);
      if (on.dc >= SOLID_SIEMENS && !isTransformer.has(part)) this.solid.join(this.node(a), this.node(b));
    }
    for (const { part, ends, ratio } of circuit.transformers) {
      const [p, q, s, t] = ends;
      const primary = this.edge(p, q);
      const secondary = this.edge(s, t);
      const volts = circuit.sources.find((source) => source.part === part)?.volts ?? 0;
      this.windings.push({ part, ...this.poles(s, t), volts, edge: secondary, fedBy: primary });
      // Fed from its secondary it makes line voltage on its primary.
      this.windings.push({ part, ...this.poles(p, q), volts: volts / ratio, edge: primary, fedBy: secondary });
    }
    let waiting = circuit.sources.filter(({ part, volts }) => !isTransformer.has(part) && volts > 0 && lives(part) !== false);
    const isOn = ({ part }: (typeof waiting)[number]): boolean => {
      const can = lives(part);
      return can === true || (can !== false && can.some((node) => this.touch(node) !== undefined));
    };
    for (let on = waiting.filter(isOn); on.length > 0; on = waiting.filter(isOn)) {
      this.supplies = [
        ...this.supplies,
        ...on.map(({ part, hot, back, volts }) => ({ part, ...this.poles(hot, back), volts, edge: this.edge(hot, back) })),
      ];
      this.energise();
      const now = on;
      waiting = waiting.filter((source) => !now.includes(source));
    }
  }

  private node(number: number): number {
    return number < 0 ? this.ground : number;
  }

  private edge(a: number, b: number): number {
    return this.edges.push([this.node(a), this.node(b)]) - 1;
  }

  /** A source's hot side is the one that is not bonded to earth; where neither or both are, the first one named. */
  private poles(hot: number, back: number): { readonly hot: number; readonly back: number } {
    const [one, other, earth] = [this.node(hot), this.node(back), this.solid.find(this.ground)];
    const reversed = this.solid.find(one) === earth && this.solid.find(other) !== earth;
    return reversed ? { hot: other, back: one } : { hot: one, back: other };
  }

  /** Finds the windings that a source feeds, straight or through other transformers, and what can be touched. */
  private energise(): void {
    const strong = this.edges.map(([a, b], i): Edge => (this.faint.has(i) ? [a, a] : [a, b]));
    const block = blocksOf(this.ground + 1, strong);
    const live = new Set<number>(this.supplies.map(({ edge }) => block[edge] ?? -1));
    live.delete(-1);
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
    this.fed = fed;
    const touched = new Array<LiveBy | undefined>(this.ground + 1).fill(undefined);
    for (const feed of [...this.supplies, ...fed]) this.reach(feed, strong, touched);
    this.touched = touched;
  }

  private reach({ part, hot, back, volts, edge: own }: Feed, edges: readonly Edge[], touched: (LiveBy | undefined)[]): void {
    const by: LiveBy = { class: classOf(volts), source: part };
    const seen = new Set<number>([hot]);
    const queue = [hot];
    for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
      const before = touched[node];
      if (!before || worse(by.class, before.class)) touched[node] = by;
      // The return side and earth are where a hot path ends.
      if (node === back || node === this.ground) continue;
      for (const [i, [a, b]] of edges.entries()) {
        if (i === own || (a !== node && b !== node)) continue;
        const other = a === node ? b : a;
        if (seen.has(other)) continue;
        seen.add(other);
        queue.push(other);
      }
    }
  }

  /** What a hand or lead at a node can touch; undefined where no source reaches it. Node -1 is ground, which is earth and never live. */
  touch(node: number): LiveBy | undefined {
    return node < 0 ? undefined : this.touched[node];
  }

  /** What can drive a current, be it microamperes, through a meter between two nodes; undefined where nothing can. */
  drive(a: number, b: number): LiveBy | undefined {
    const meter: Edge = [this.node(a), this.node(b)];
    if (meter[0] === meter[1] || this.supplies.length === 0) return undefined;
    const block = blocksOf(this.ground + 1, [...this.edges, meter]);
    const own = block[this.edges.length];
    let worst: LiveBy | undefined;
    for (const { part, volts, edge } of [...this.supplies, ...this.fed]) {
      if (block[edge] !== own) continue;
      const by: LiveBy = { class: classOf(volts), source: part };
      if (!worst || worse(by.class, worst.class)) worst = by;
    }
    return worst;
  }
}
