import { GROUND } from '../../../engine/bench/index.ts';
import { across, edgesByNode } from './blocks-of.ts';
import { type Edge, isGroundSymbol } from './circuit-edges.ts';
import { inSeries, type Net, partNet, readFrom } from './net.ts';
import type { Stub, StubEnd } from './series-parallel.ts';

type StubMap = Map<string, readonly Stub[]>;

/** Hangs the parts that lie on no loop from the nodes they end on, each part once. */
export class StubPlanner {
  private readonly at: ReadonlyMap<string, readonly Edge[]>;
  private readonly left: Set<Edge>;
  private readonly bridges: readonly Edge[];
  private readonly grounded: boolean;

  constructor(
    bridges: readonly Edge[],
    private readonly onOneNode: readonly Edge[],
    /** Nodes that a ladder draws. */
    private readonly onLadder: ReadonlySet<string>,
  ) {
    this.at = edgesByNode(bridges);
    this.bridges = bridges;
    this.left = new Set([...bridges, ...onOneNode]);
    this.grounded = [...bridges, ...onOneNode].some(({ from, to }) => isGroundSymbol(from) || isGroundSymbol(to));
  }

  /** Adds to `stubs` everything that hangs from a node and is not drawn yet, and what hangs from that. */
  hang(node: string, stubs: StubMap): void {
    for (const edge of this.onOneNode) {
      if (edge.from === node && this.left.delete(edge)) this.add(stubs, node, { net: partNet(edge), end: { kind: 'elsewhere', node } });
    }
    for (const edge of this.at.get(node) ?? []) {
      if (!this.left.delete(edge)) continue;
      this.add(stubs, node, this.follow(readFrom(partNet(edge), node), stubs));
    }
  }

  /** The node that the next piece on no rails starts from: where a chain ends, else any. */
  nextStart(): string | undefined {
    const edge = [...this.bridges, ...this.onOneNode].find((one) => this.left.has(one));
    if (!edge) return undefined;
    const tip = this.tipOf(edge);
    return isGroundSymbol(tip) ? across(edge, tip) : tip;
  }

  /** Whether a terminal is ground, and some ground symbol stands for it. */
  groundDrawn(terminal: string): boolean {
    return terminal === GROUND && this.grounded;
  }

  private add(stubs: StubMap, node: string, stub: Stub): void {
    stubs.set(node, [...(stubs.get(node) ?? []), stub]);
  }

  private follow(start: Net, stubs: StubMap): Stub {
    let net = start;
    for (;;) {
      const end = this.endAt(net.to);
      if (end) return { net, end };
      const node = net.to;
      const next = (this.at.get(node) ?? []).find((edge) => this.left.has(edge));
      if (!next) {
        this.hang(node, stubs);
        return { net, end: { kind: 'point', node } };
      }
      this.left.delete(next);
      this.hang(node, stubs);
      net = inSeries(net, readFrom(partNet(next), node));
    }
  }

  private endAt(node: string): StubEnd | undefined {
    if (isGroundSymbol(node)) return { kind: 'ground', node };
    return this.onLadder.has(node) ? { kind: 'elsewhere', node } : undefined;
  }

  /** Walks away from an edge as far as it goes, ground last, so that a chain is read from one of its ends. */
  private tipOf(start: Edge): string {
    const seen = new Set<Edge>();
    const walk = (from: string): string => {
      let node = from;
      for (;;) {
        const edge = (this.at.get(node) ?? []).find((one) => this.left.has(one) && !seen.has(one));
        if (!edge) return node;
        seen.add(edge);
        const next = across(edge, node);
        if (isGroundSymbol(next)) continue;
        node = next;
      }
    };
    seen.add(start);
    return isGroundSymbol(start.from) ? walk(start.to) : walk(start.from);
  }
}
