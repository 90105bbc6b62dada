import fc from 'fast-check';
import { expect, it } from 'vitest';
import { strongComponents } from './strong-components.ts';

const sorted = (components: readonly (readonly number[])[]) => [...components].sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));

it('finds loops, and steps by themselves', () => {
  expect(sorted(strongComponents([[1], [2], [0, 3], [4], [3], []]))).toEqual([[0, 1, 2], [3, 4], [5]]);
});

it('puts two nodes together just when each can be reached from the other', () => {
  const graph = fc.integer({ min: 1, max: 9 }).chain((n) => fc.array(fc.array(fc.nat(n - 1), { maxLength: 3 }), { minLength: n, maxLength: n }));
  fc.assert(
    fc.property(graph, (next) => {
      const reach = next.map((_, start) => {
        const seen = new Set([start]);
        for (const node of seen) for (const to of next[node] ?? []) seen.add(to);
        return seen;
      });
      const of = new Map(strongComponents(next).flatMap((members, i) => members.map((node) => [node, i] as const)));
      for (const a of next.keys()) for (const b of next.keys()) expect(of.get(a) === of.get(b)).toBe(Boolean(reach[a]?.has(b) && reach[b]?.has(a)));
    }),
    { seed: 7, numRuns: 300 },
  );
});

it('does not run out of stack on a long line of steps', () => {
  const n = 50_000;
  expect(strongComponents(Array.from({ length: n }, (_, i) => (i + 1 < n ? [i + 1] : [0])))).toHaveLength(1);
});
