import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blocksOf } from './blocks-of.ts';

type Link = { readonly id: number; readonly from: string; readonly to: string };

const graph = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 7 }), fc.integer({ min: 0, max: 7 })), { maxLength: 16 })
  .map((pairs) => pairs.flatMap(([a, b], id): Link[] => (a === b ? [] : [{ id, from: `n${a}`, to: `n${b}` }])));

/** Whether two nodes hang together once one node is taken away. */
function joinedWithout(links: readonly Link[], gone: string, from: string, to: string): boolean {
  const seen = new Set([from]);
  for (let grown = true; grown; ) {
    grown = false;
    for (const link of links) {
      if (link.from === gone || link.to === gone || seen.has(link.from) === seen.has(link.to)) continue;
      seen.add(link.from).add(link.to);
      grown = true;
    }
  }
  return seen.has(to);
}

/** Blocks by their definition: edges that meet at a node are in one block where their far ends hang together without that node. */
function blocksByDefinition(links: readonly Link[]): ReadonlyMap<number, number> {
  const label = new Map(links.map(({ id }) => [id, id]));
  for (let grown = true; grown; ) {
    grown = false;
    for (const one of links) {
      for (const other of links) {
        if (label.get(one.id) === label.get(other.id)) continue;
        const shared = [one.from, one.to].filter((node) => node === other.from || node === other.to);
        const together = shared.some((node) => {
          const [a, b] = [one, other].map((link) => (link.from === node ? link.to : link.from));
          return a !== undefined && b !== undefined && (a === b || joinedWithout(links, node, a, b));
        });
        if (!together) continue;
        const [into, gone] = [label.get(one.id) ?? 0, label.get(other.id) ?? 0];
        for (const [id, now] of label) if (now === gone) label.set(id, into);
        grown = true;
      }
    }
  }
  return label;
}

describe('blocksOf', () => {
  it('has every edge in one block', () => {
    fc.assert(
      fc.property(graph, (links) => {
        const listed = blocksOf(links).flatMap((block) => block.map(({ id }) => id));
        expect(listed.toSorted((a, b) => a - b)).toEqual(links.map(({ id }) => id));
      }),
      { seed: 71 },
    );
  });

  it('agrees with the definition of a block', () => {
    fc.assert(
      fc.property(graph, (links) => {
        const label = blocksByDefinition(links);
        const blocks = blocksOf(links);
        for (const block of blocks) expect(new Set(block.map(({ id }) => label.get(id))).size).toBe(1);
        expect(blocks.length).toBe(new Set(label.values()).size);
      }),
      { seed: 71, numRuns: 200 },
    );
  });

  it('takes a chain longer than a stack', () => {
    const chain = Array.from({ length: 20_000 }, (_, id) => ({ id, from: `n${id}`, to: `n${id + 1}` }));
    expect(blocksOf(chain)).toHaveLength(20_000);
  });
});
