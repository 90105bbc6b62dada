import { describe, expect, it } from 'vitest';
import type { Part } from '../../../engine/bench/index.ts';
import { chooseRails } from './choose-rails.ts';
import { circuitEdges } from './circuit-edges.ts';
import { benchOf, partBetween, transformerBetween } from './testing/random-bench.ts';

const rails = (parts: readonly Part[], terminals?: readonly string[]): readonly [string, string] => {
  const bench = benchOf(parts, terminals);
  const edges = circuitEdges(bench).edges.filter(({ piece }) => piece !== 'primary');
  const { left, right } = chooseRails(edges, new Set(bench.terminals));
  return [left, right];
};

describe('chooseRails', () => {
  it('moves the hot rail past the fuse to where the circuit branches', () => {
    const parts = [
      transformerBetween(['L1', 'N'], ['T1', 'C']),
      partBetween('fuse', ['T1', 'R']),
      partBetween('load', ['R', 'C']),
      partBetween('load', ['R', 'C']),
    ];
    expect(rails(parts)).toEqual(['R', 'C']);
  });

  it('leaves a relay that feeds everything on its rung', () => {
    const parts = [
      partBetween('source', ['L1', 'N']),
      partBetween('contact', ['L1', 'H']),
      partBetween('load', ['H', 'N']),
      partBetween('load', ['H', 'N']),
    ];
    expect(rails(parts)).toEqual(['L1', 'N']);
  });

  it('moves from a point that cannot be touched to one that can', () => {
    const parts = [partBetween('source', ['LINE', 'N']), partBetween('switch', ['LINE', 'L1']), partBetween('load', ['L1', 'N'])];
    expect(rails(parts, ['L1', 'N'])).toEqual(['L1', 'N']);
    expect(rails(parts)).toEqual(['LINE', 'N']);
  });

  it('takes both legs of a 240 V supply as one', () => {
    const parts = [
      partBetween('source', ['SA', 'ground']),
      partBetween('source', ['SB', 'ground']),
      partBetween('contact', ['SA', 'CA']),
      partBetween('load', ['CA', 'SB']),
    ];
    expect(rails(parts)).toEqual(['SA', 'SB']);
  });

  it('takes power from outside before a board’s own DC', () => {
    const parts = [
      partBetween('dc-source', ['P', 'M']),
      partBetween('source', ['R', 'C']),
      partBetween('load', ['R', 'P']),
      partBetween('load', ['M', 'C']),
    ];
    expect(rails(parts)).toEqual(['R', 'C']);
  });

  it('has two rails where nothing supplies', () => {
    const [left, right] = rails([partBetween('load', ['A', 'B']), partBetween('wire', ['B', 'A'])]);
    expect([left, right].toSorted()).toEqual(['A', 'B']);
  });
});
