import { describe, expect, it, test } from 'vitest';
import { matrixWords } from './matrix-words.ts';
import { readMatrix } from './read-matrix.ts';

const GOOD = 'state,prior,t1,t2\n#cost,,1,2.5\na,0.5,yes,no\nb,1.5,no,no\n';

const codeOf = (csv: string): string => {
  const read = readMatrix(csv);
  return read.ok ? 'read' : read.problem.code;
};

describe('reading a matrix', () => {
  it('takes words for outcomes and scales priors', () => {
    const read = readMatrix(GOOD);
    if (!read.ok) throw new Error(read.problem.code);
    expect([...read.value.priors]).toEqual([0.25, 0.75]);
    expect([...read.value.costs]).toEqual([1, 2.5]);
    expect(read.value.outcomes.map((row) => [...row])).toEqual([
      [0, 1],
      [0, 0],
    ]);
  });

  it('takes set-ups, the first named being how the circuit is found', () => {
    const read = readMatrix(`${GOOD}#wants,,,off\n#switch,on,off,4\n#switch,off,on,1\n`);
    if (!read.ok) throw new Error(read.problem.code);
    expect(read.value.setUps?.names).toEqual(['on', 'off']);
    expect([...(read.value.setUps?.wants ?? [])]).toEqual([-1, 1]);
    expect([...(read.value.setUps?.minutes ?? [])]).toEqual([0, 4, 1, 0]);
  });

  test.each([
    ['no-header', ''],
    ['no-header', 'name,prior,t\n'],
    ['no-cost-row', 'state,prior,t1\na,1,0\n'],
    ['no-states', 'state,prior,t1\n#cost,,1\n'],
    ['row-length', `${GOOD}c,1,yes\n`],
    ['twice', `${GOOD}a,1,yes,yes\n`],
    ['twice', 'state,prior,t,t\n#cost,,1,1\na,1,0,0\n'],
    ['not-a-number', GOOD.replace('0.5', 'half')],
    ['not-a-number', GOOD.replace('2.5', '-1')],
    ['not-a-number', GOOD.replace('2.5', '')],
    ['no-prior', GOOD.replace('0.5', '0').replace('1.5', '0')],
    ['unknown-row', `${GOOD}#minutes,,1,1\n`],
    ['unknown-set-up', `${GOOD}#wants,,,off\n`],
    ['no-switch', `${GOOD}#wants,,,off\n#switch,on,off,4\n`],
    ['too-big', `state,prior,t\n#cost,,1\n${Array.from({ length: 60 }, (_, i) => `s${i},1,v${i}`).join('\n')}\n`],
  ])('says %s', (code, csv) => {
    expect(codeOf(csv)).toBe(code);
    const read = readMatrix(csv);
    if (!read.ok) for (const words of Object.values(matrixWords(read.problem))) expect(words).toMatch(/\S.*\.|\S+,/);
  });
});
