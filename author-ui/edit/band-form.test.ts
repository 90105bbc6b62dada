import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Environment } from '../../engine/formula/index.ts';
import { TRADE_FUNCTIONS } from '../../engine/trade/index.ts';
import { bandForm, bandText, draggedEdge, drawnEdges, moveEdge, moveSide } from './band-form.ts';

const env: Environment = { value: (name) => (name === 'coil-rated' ? 24 : undefined), functions: TRADE_FUNCTIONS };
const to = { step: 'a' };
const ways = ['below 2 V', '2 V to 85 % of coil-rated', '85 % of coil-rated to 30 V', 'above 30 V'].map((on) => ({ on, to }));

test.each(['below 2 V', '2 V to 85 % of coil-rated', 'above 30 V', 'within 10 % of coil-rated', 'within 2 V of coil-rated', 'open', 'otherwise'])(
  'the form of %s says the same',
  (on) => {
    const form = bandForm(on);
    expect(form && bandText(form)).toBe(on);
  },
);

test('what is no band has no form', () => expect(bandForm('water runs')).toBeUndefined());

describe('the edges of bands that meet', () => {
  test('are drawn once each, least first, and formulas by their value', () =>
    expect(drawnEdges(ways, env)).toEqual([
      { text: '2 V', si: 2, isFree: true },
      { text: '85 % of coil-rated', si: 20.4, isFree: true },
      { text: '30 V', si: 30, isFree: true },
    ]));

  test('move together, and the bands still meet', () =>
    expect(moveEdge(ways, '85 % of coil-rated', '20 V').map(({ on }) => on)).toEqual(['below 2 V', '2 V to 20 V', '20 V to 30 V', 'above 30 V']));

  test('stay where the new text is no number', () => expect(moveEdge(ways, '2 V', 'two volts')).toEqual(ways));

  test('a way that the edge does not bound is the same value', () => expect(moveEdge(ways, '2 V', '3 V')[3]).toBe(ways[3]));
});

describe('an edge that is typed over', () => {
  test('takes along the band that meets it there, from either side', () => {
    expect(moveSide(ways, 0, 'high', '3 V').map(({ on }) => on)).toEqual([
      'below 3 V',
      '3 V to 85 % of coil-rated',
      ...ways.slice(2).map(({ on }) => on),
    ]);
    expect(
      moveSide(ways, 3, 'low', '32 V')
        .map(({ on }) => on)
        .slice(2),
    ).toEqual(['85 % of coil-rated to 32 V', 'above 32 V']);
  });

  test('leaves the other edge of a band that is written the same', () => {
    const thin = ['below 2 V', '2 V to 2 V'].map((on) => ({ on, to }));
    expect(moveSide(thin, 1, 'high', '9 V').map(({ on }) => on)).toEqual(['below 2 V', '2 V to 9 V']);
  });
});

describe('dragging', () => {
  test.each([
    ['2 V', 3.26, 'ac-voltage', '3.5 V'],
    ['150 ohm', 212, 'resistance', '210 ohm'],
    ['1.2 kohm', 2130, 'resistance', '2 kohm'],
    ['85 % of coil-rated', 19.2, 'ac-voltage', '80 % of coil-rated'],
    ['coil-rated + 2 V', 20, 'ac-voltage', 'coil-rated + 2 V'],
  ] as const)('%s to %d', (edge, si, kind, moved) => expect(draggedEdge(edge, si, env, kind)).toBe(moved));

  test('never makes an edge that cannot be read, nor one far from where it was let go', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 5000, noNaN: true }), (si) => {
        const moved = moveEdge(ways, '30 V', draggedEdge('30 V', si, env, 'ac-voltage'));
        const edge = drawnEdges(moved.slice(3), env)[0];
        expect(edge).toBeDefined();
        expect(Math.abs((edge?.si ?? 0) - si)).toBeLessThanOrEqual(0.051 * si + 0.5);
      }),
      { seed: 4, numRuns: 300 },
    );
  });
});
