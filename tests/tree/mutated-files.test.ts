import { describe, expect, it } from 'vitest';
import { PROBLEM_CODES, type ProblemCode, readTree } from '../../engine/tree/index.ts';
import { damaged, UNDAMAGED } from './damaged-file.ts';
import { SAMPLE_SURROUNDINGS } from './sample-surroundings.ts';

const FILES = 20_000;

describe('a file that was damaged', () => {
  it('gives a tree or problems, never an exception', () => {
    const codes = new Map<string, number>();
    let sound = 0;
    for (let i = 1; i <= FILES; i += 1) {
      const text = damaged(i);
      const { tree, problems } = readTree(text, { file: 'no-heat.tree.mdx', surroundings: SAMPLE_SURROUNDINGS });
      if (tree) sound += 1;
      else if (!problems.some((p) => p.severity === 'error')) throw new Error(`File ${i} gives no tree and no error.`);
      const lines = text.split(/\r\n?|\n/).length;
      for (const problem of problems) {
        codes.set(problem.code, (codes.get(problem.code) ?? 0) + 1);
        if (!(problem.code in PROBLEM_CODES) || problem.message === '' || problem.fix === '')
          throw new Error(`File ${i}: ${JSON.stringify(problem)}`);
        if (problem.line < 1 || problem.line > lines || problem.column < 1)
          throw new Error(`File ${i} has a problem nowhere: ${JSON.stringify(problem)}`);
      }
    }
    // The damage is of many kinds, or the test would show little.
    expect([...codes.keys()].filter((code) => PROBLEM_CODES[code as ProblemCode].group === 'form').length).toBeGreaterThan(10);
    expect(sound).toBeGreaterThan(FILES / 100);
  }, 600_000);

  it('starts from one that has nothing wrong with it', () => {
    expect(readTree(UNDAMAGED, { file: 'no-heat.tree.mdx', surroundings: SAMPLE_SURROUNDINGS }).problems).toEqual([]);
  });
});
