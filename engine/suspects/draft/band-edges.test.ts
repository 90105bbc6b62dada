import { describe, expect, it } from 'vitest';
import type { Outcome } from '../isolate/outcome-bands.ts';
import { draftBands, draftUnit } from './band-edges.ts';

const range = (low: number, high: number): Outcome => ({ low, high, open: false });
const OL: Outcome = { low: Number.POSITIVE_INFINITY, high: Number.POSITIVE_INFINITY, open: true };
const numbered = (...outcomes: Outcome[]) => outcomes.map((outcome, number) => ({ outcome, number }));

describe('bands of a drafted reading', () => {
  it('stand in the gaps, with a band that leads nowhere where a gap is wide, and one above all', () => {
    expect(draftBands('ac-voltage', numbered(range(0, 0.5), range(23, 28)), 'V')).toEqual([
      { on: 'below 6 V', outcome: 0 },
      { on: '6 V to 20 V', outcome: undefined },
      { on: '20 V to 40 V', outcome: 1 },
      { on: 'above 40 V', outcome: undefined },
    ]);
  });

  it('have one edge where the gap is narrow', () => {
    const bands = draftBands('ac-voltage', numbered(range(14, 17), range(22, 28)), 'V');
    expect(bands.map(({ outcome }) => outcome)).toEqual([undefined, 0, 1, undefined]);
    const edge = Number.parseFloat(bands[2]?.on ?? '');
    expect(edge).toBeGreaterThan(17);
    expect(edge).toBeLessThan(22);
  });

  it('of ohms end with OL, told or not', () => {
    const bands = draftBands('resistance', numbered(range(20, 30), OL), 'ohm');
    expect(bands.at(-1)).toEqual({ on: 'open', outcome: 1 });
    // A damp board shows some megohms where a part is open.
    expect(bands.at(-2)?.outcome).toBe(1);
    expect(draftBands('resistance', numbered(range(20, 30)), 'ohm').at(-1)).toEqual({ on: 'open', outcome: undefined });
  });

  it('of a concentration have no end: more carbon monoxide is flue gas too', () => {
    const bands = draftBands('concentration', numbered(range(0, 3e-6), range(40e-6, 50e-6)), 'ppm');
    expect([bands[0]?.outcome, bands.at(-1)?.outcome]).toEqual([0, 1]);
  });
});

describe('the unit that a drafted reading is typed in', () => {
  it.each([
    [3e-6, 'uA'],
    [0.02, 'mA'],
    [1.4, 'A'],
  ])('%d A in %s', (most, unit) => expect(draftUnit('dc-current', [range(0, most)])).toBe(unit));
});
