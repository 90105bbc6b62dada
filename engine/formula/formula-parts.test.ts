import { describe, expect, test } from 'vitest';
import { DIMENSIONS } from '../quantity/index.ts';
import { success } from '../result.ts';
import type { FunctionTable } from './formula-function.ts';
import { namesIn, sourcesIn, unitOfAnswer } from './formula-parts.ts';
import { readFormula } from './formula-reader.ts';

const FUNCTIONS: FunctionTable = {
  ohms: {
    parameters: [
      { name: 'curve', takes: 'choice', choices: ['steep'] },
      { name: 'temperature', takes: 'quantity', dimension: DIMENSIONS.temperature, unit: '°F' },
    ],
    result: DIMENSIONS.resistance,
    unit: 'kohm',
    about: 'a curve',
    source: 'a table',
    compute: () => success(1),
  },
};
const parsed = (text: string) => {
  const formula = readFormula(text);
  if (!formula.ok) throw new Error(text);
  return formula.value;
};
const unit = (text: string) => unitOfAnswer(parsed(text), FUNCTIONS, (name) => ({ outdoor: '°F', run: 'ft' })[name]);

describe('parts of a formula', () => {
  test('the facts in it, each once, and no word that a function takes as a choice', () => {
    expect(namesIn(parsed('-(a + 85 % of b) * ohms(steep, a + steeper) / c'), FUNCTIONS)).toEqual(['a', 'b', 'steeper', 'c']);
  });

  test('the sources of its functions, each once; none for arithmetic and for functions that are not known', () => {
    expect(sourcesIn(parsed('ohms(steep, 70 °F) - ohms(steep, outdoor)'), FUNCTIONS)).toEqual(['a table']);
    expect(sourcesIn(parsed('run * 2 + toString(run)'), FUNCTIONS)).toEqual([]);
  });

  test.each([
    ['24 V', 'V'],
    ['2', ''],
    ['run', 'ft'],
    ['ohms(steep, outdoor)', 'kohm'],
    ['85 % of run', 'ft'],
    ['-run', 'ft'],
    ['run - 10 m', 'ft'],
    ['outdoor + 5 F°', '°F'],
    ['5 F° + outdoor', '°F'],
    ['outdoor - 70 °F', '°F'],
    ['(70 °F) - outdoor', 'F°'],
    ['run * 2', undefined],
    ['run / 2', undefined],
    ['nobody', undefined],
    ['toString(run)', undefined],
  ])('%s is shown in %s', (text, expected) => {
    // “outdoor - 70 °F” takes a difference away, “70 °F - outdoor” one temperature from another.
    expect(unit(text)).toBe(expected);
  });
});
