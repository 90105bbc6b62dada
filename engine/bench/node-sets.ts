/** Disjoint sets of small numbers (union by path halving); which nodes hang together. */
export class NodeSets {
  private readonly parent: Int32Array;

  constructor(readonly size: number) {
    this.parent = new Int32Array(size);
    this.clear();
  }

  clear(): void {
    for (let i = 0; i < this.size; i += 1) this.parent[i] = i;
  }

  find(node: number): number {
    let at = node;
    for (;;) {
      const above = this.parent[at] ?? at;
      if (above === at) return at;
      const top = this.parent[above] ?? above;
      this.parent[at] = top;
      at = top;
    }
  }

  /** The lower root stays root, so that a set is named by its first node. */
  join(a: number, b: number): void {
    const one = this.find(a);
    const other = this.find(b);
    if (one < other) this.parent[other] = one;
    else this.parent[one] = other;
  }
}
