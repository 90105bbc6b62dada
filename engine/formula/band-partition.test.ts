import { describe, expect, it } from 'vitest';
import { bandInterval, readBand, showBand } from './band.ts';
import { partitionProblems } from './band-partition.ts';
import type { FactBox } from './fact-box.ts';

const box: FactBox = { rated: { usual: 24, from: 20, to: 28 }, other: { usual: 24, from: 23, to: 25 } };
const bands = (texts: readonly string[]) =>
  texts.map((text) => {
    const band = readBand(text);
    if (!band.ok) throw new Error(`${text}: ${JSON.stringify(band.problem)}`);
    return band.value;
  });
const problems = (texts: readonly string[], range = { floor: 0, open: false }) => partitionProblems(bands(texts), range, box, {});

describe('bands part the range of a reading', () => {
  it.each<[string, readonly string[]]>([
    ['neighbours with the same edge', ['below 2 V', '2 V to 85 % of rated', '85 % of rated to 120 % of rated', 'above 120 % of rated']],
    ['otherwise takes the rest', ['within 10 % of rated', 'otherwise']],
    ['edges written differently but equal', ['below 50 % of rated', 'above rated / 2']],
  ])('%s', (_, texts) => {
    expect(problems(texts)).toEqual([]);
  });

  it('names a gap with its numbers', () => {
    expect(problems(['below 2 V', 'above 3 V'])).toMatchObject([{ code: 'gap', from: 2, to: 3, after: 0, before: 1 }]);
    expect(problems(['2 V to 3 V'])).toMatchObject([
      { code: 'gap', from: 0, to: 2 },
      { code: 'gap', from: 3, to: Number.POSITIVE_INFINITY },
    ]);
  });

  it('names an overlap with its numbers', () => {
    expect(problems(['below 3 V', 'above 2 V'])).toMatchObject([{ code: 'overlap', from: 2, to: 3, bands: [0, 1] }]);
    expect(problems(['below 3 V', 'above 2 V', 'otherwise'])).toMatchObject([{ code: 'overlap' }]);
  });

  // [0,2) (2,18) [18,30] [30,600] has the gap {2} and the overlap {30}: with edges held low and not high there is neither, and a list of bands cannot say it.
  it('end points belong to one band each', () => {
    const [below, above] = bands(['below 2 V', 'above 2 V']);
    const env = { value: () => undefined, functions: {} };
    expect(below && bandInterval(below, env)).toEqual({ low: Number.NEGATIVE_INFINITY, high: 2 });
    expect(above && bandInterval(above, env)).toEqual({ low: 2, high: Number.POSITIVE_INFINITY });
  });

  it('finds what only some houses show', () => {
    // Fine at the usual 24 V; at rated = 20 V and other = 25 V the upper edge falls below the lower one.
    const found = problems(['below other', 'other to 105 % of rated', 'above 105 % of rated']);
    expect(found.map((p) => p.code)).toContain('empty');
    const gap = problems(['below 90 % of rated', 'above 90 % of other']);
    expect(gap.map((p) => p.code)).toEqual(expect.arrayContaining(['gap', 'overlap']));
  });

  it('an ohms reading says what OL means', () => {
    expect(problems(['below 5 ohm', 'above 5 ohm'], { floor: 0, open: true })).toEqual([{ code: 'open-not-covered' }]);
    expect(problems(['below 5 ohm', 'above 5 ohm', 'open'], { floor: 0, open: true })).toEqual([]);
    expect(problems(['below 5 ohm', 'otherwise'], { floor: 0, open: true })).toEqual([]);
  });

  it('says which band has no number, not the hole it leaves', () => {
    const found = problems(['below 2 V', '2 V to rated / (other - other)', 'above 30 V']);
    expect(found.map((p) => p.code)).toEqual(['not-computable']);
  });

  it('are written in one form', () => {
    for (const text of [
      'below 2 V',
      '2 V to 85 % of rated',
      'above 120 % of rated',
      'within 10 % of rated',
      'within 3 F° of outdoor',
      'open',
      'otherwise',
    ]) {
      const [band] = bands([text]);
      expect(band && showBand(band)).toBe(text);
    }
    const [tolerance] = bands(['within 3 °F of outdoor']);
    expect(tolerance && showBand(tolerance)).toBe('within 3 F° of outdoor');
  });
});
