import fc from 'fast-check';
import { expect, test } from 'vitest';
import { blocksOf } from './blocks.ts';

const together = (size: number, edges: [number, number][]): string[] => {
  const block = blocksOf(size, edges);
  const groups = new Map<number, number[]>();
  block.forEach((number, edge) => {
    groups.set(number, [...(groups.get(number) ?? []), edge]);
  });
  return [...groups]
    .filter(([number]) => number >= 0)
    .map(([, list]) => list.join(' '))
    .sort();
};

test('a triangle with a tail, two triangles at one node, two edges side by side', () => {
  expect(
    together(4, [
      [0, 1],
      [1, 2],
      [2, 0],
      [2, 3],
    ]),
  ).toEqual(['0 1 2', '3']);
  expect(
    together(5, [
      [0, 1],
      [1, 2],
      [2, 0],
      [2, 3],
      [3, 4],
      [4, 2],
    ]),
  ).toEqual(['0 1 2', '3 4 5']);
  expect(
    together(3, [
      [0, 1],
      [1, 0],
      [1, 2],
    ]),
  ).toEqual(['0 1', '2']);
  expect([
    ...blocksOf(2, [
      [0, 0],
      [0, 1],
    ]),
  ]).toEqual([-1, 0]);
});

/** Two edges are in one block exactly if taking away any one node or other edge leaves a way round: the definition, by brute force. */
function sameBlock(size: number, edges: readonly [number, number][], one: number, other: number): boolean {
  const [a, b] = edges[one] ?? [0, 0];
  const [c, d] = edges[other] ?? [0, 0];
  // Two disjoint ways from the ends of one to the ends of the other: a maximum flow of 2 with every node passed once.
  const flow = new Map<string, number>();
  const key = (from: string, to: string): string => `${from}>${to}`;
  const cap = new Map<string, number>();
  const link = (from: string, to: string, capacity: number): void => {
    cap.set(key(from, to), (cap.get(key(from, to)) ?? 0) + capacity);
    if (!cap.has(key(to, from))) cap.set(key(to, from), 0);
  };
  for (let node = 0; node < size; node += 1) link(`in${node}`, `out${node}`, 1);
  edges.forEach(([from, to], i) => {
    if (i === one || i === other || from === to) return;
    link(`out${from}`, `in${to}`, 1);
    link(`out${to}`, `in${from}`, 1);
  });
  link('source', `in${a}`, 1);
  link('source', `in${b}`, 1);
  link(`out${c}`, 'sink', 1);
  link(`out${d}`, 'sink', 1);
  let total = 0;
  for (;;) {
    const from = new Map<string, string>([['source', '']]);
    const queue = ['source'];
    for (let at = queue.shift(); at !== undefined; at = queue.shift()) {
      for (const [edge, capacity] of cap) {
        const [start = '', end = ''] = edge.split('>');
        if (start !== at || from.has(end) || capacity - (flow.get(edge) ?? 0) <= 0) continue;
        from.set(end, at);
        queue.push(end);
      }
    }
    if (!from.has('sink')) return total >= 2;
    for (let at = 'sink'; at !== 'source'; at = from.get(at) ?? 'source') {
      const before = from.get(at) ?? 'source';
      flow.set(key(before, at), (flow.get(key(before, at)) ?? 0) + 1);
      flow.set(key(at, before), (flow.get(key(at, before)) ?? 0) - 1);
    }
    total += 1;
  }
}

test('any graph: two edges are in one block exactly if some loop runs through both', () => {
  const SIZE = 6;
  const edge = fc.tuple(fc.nat(SIZE - 1), fc.nat(SIZE - 1)).filter(([a, b]) => a !== b);
  fc.assert(
    fc.property(fc.array(edge, { minLength: 2, maxLength: 9 }), (edges) => {
      const block = blocksOf(SIZE, edges);
      for (let i = 1; i < edges.length; i += 1) expect(block[0] === block[i], JSON.stringify(edges)).toBe(sameBlock(SIZE, edges, 0, i));
    }),
    { numRuns: 200, seed: 7 },
  );
});
