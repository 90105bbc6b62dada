import { describe, expect, it } from 'vitest';
import { placeOnScale, scaleSegments } from './scale-segments.ts';

const band = (on: string, low: number | null, high: number | null) => ({ on, low, high });
const shape = (segments: ReturnType<typeof scaleSegments>) => segments.map(({ kind, band: { on }, low, high }) => [kind, on, low, high]);

describe('stretches of a scale', () => {
  it('lie in order of value, with OL last', () => {
    const bands = [band('above 200 ohm', 200, null), band('open', null, null), band('below 5 ohm', null, 5), band('5 ohm to 200 ohm', 5, 200)];
    expect(shape(scaleSegments(bands, 'resistance'))).toEqual([
      ['range', 'below 5 ohm', null, 5],
      ['range', '5 ohm to 200 ohm', 5, 200],
      ['range', 'above 200 ohm', 200, null],
      ['open', 'open', null, null],
    ]);
  });

  it('give "otherwise" the gaps that the numbers leave', () => {
    const bands = [band('below 2 V', null, 2), band('20 V to 28 V', 20, 28), band('otherwise', null, null)];
    expect(shape(scaleSegments(bands, 'ac-voltage'))).toEqual([
      ['range', 'below 2 V', null, 2],
      ['rest', 'otherwise', 2, 20],
      ['range', '20 V to 28 V', 20, 28],
      ['rest', 'otherwise', 28, null],
    ]);
  });

  it('give "otherwise" what lies below the first number, on a scale that goes below zero', () => {
    const bands = [band('within 10 % of 24 V', 21.6, 26.4), band('otherwise', null, null)];
    expect(shape(scaleSegments(bands, 'dc-voltage'))).toEqual([
      ['rest', 'otherwise', null, 21.6],
      ['range', 'within 10 % of 24 V', 21.6, 26.4],
      ['rest', 'otherwise', 26.4, null],
    ]);
    expect(shape(scaleSegments([band('20 V to 28 V', 20, 28), band('otherwise', null, null)], 'ac-voltage'))[0]).toEqual([
      'rest',
      'otherwise',
      null,
      20,
    ]);
  });

  it('keep an "otherwise" that has no number of its own apart', () => {
    const bands = [band('below 5 V', null, 5), band('above 5 V', 5, null), band('otherwise', null, null)];
    expect(shape(scaleSegments(bands, 'ac-voltage'))[0]).toEqual(['rest', 'otherwise', null, null]);
  });

  it('send OL to "otherwise" where no band says open', () => {
    const bands = [band('5 ohm to 200 ohm', 5, 200), band('otherwise', null, null)];
    expect(shape(scaleSegments(bands, 'resistance')).at(-1)).toEqual(['open', 'otherwise', null, null]);
  });
});

describe('the place of a value', () => {
  const segments = scaleSegments([band('below 2 V', null, 2), band('2 V to 20 V', 2, 20), band('above 20 V', 20, null)], 'ac-voltage');

  it.each([
    [0, 0, 0],
    [1, 0, 0.5],
    [2, 1, 0],
    [11, 1, 0.5],
    [20, 2, 0],
    [40, 2, 0.5],
  ])('%d V lies on stretch %d at %d', (si, index, along) => {
    expect(placeOnScale(segments, si, 'ac-voltage')).toEqual({ index, along });
  });

  it('is nowhere for a value that no band takes', () => {
    expect(placeOnScale(segments, 'open', 'ac-voltage')).toBeUndefined();
    expect(placeOnScale(scaleSegments([band('2 V to 20 V', 2, 20)], 'ac-voltage'), 30, 'ac-voltage')).toBeUndefined();
  });

  it('stays inside its stretch however large the value', () => {
    expect(placeOnScale(segments, 1e12, 'ac-voltage')?.along).toBeLessThanOrEqual(1);
  });
});
