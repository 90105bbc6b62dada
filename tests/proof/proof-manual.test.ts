import { describe, expect, it } from 'vitest';
import { PROBLEM_CODE_NAMES, PROBLEM_CODES } from '../../engine/tree/index.ts';
import { MANUAL } from '../tree/manual.ts';
import { BENCH_EXAMPLES, inSoundTree } from './bench-examples.ts';
import { onlyCodes, prove } from './proving.ts';

// The manual's examples of what only a bench shows, each put into the sound tree and proved.

// These two are read off the page; tests/tree/manual.test.ts runs their examples.
const ON_THE_PAGE = ['no-caution', 'no-recheck'];
const CODES = PROBLEM_CODE_NAMES.filter((code) => ['safety', 'proof'].includes(PROBLEM_CODES[code].group) && !ON_THE_PAGE.includes(code));

const of = (kind: 'bad' | 'good') => BENCH_EXAMPLES.filter((example) => example.kind === kind);

describe('the manual, on a bench', () => {
  it.each(of('bad'))('has a bad example of $code on line $line that is that, and what its mark says', ({ code, text, also }) => {
    const { problems } = prove(inSoundTree(text));
    expect(onlyCodes(problems)).toEqual([code, ...also].sort());
    // A wasted step is shown by all walks together; everything else by one.
    const shown = problems.filter((problem) => problem.code !== 'wasted-step');
    expect(shown.filter(({ path = [] }) => path.length === 0)).toEqual([]);
  });

  it.each(of('good'))('has a good example of $code on line $line with nothing wrong', ({ text }) => {
    expect(prove(inSoundTree(text)).problems).toEqual([]);
  });

  it.each(CODES)('has a bad and a good example of %s, and the table leads to it', (code) => {
    const kinds = BENCH_EXAMPLES.filter((example) => example.code === code).map((example) => example.kind);
    expect(kinds).toContain('bad');
    expect(kinds).toContain('good');
    expect(MANUAL).toContain(`| [\`${code}\`](#${code}) |`);
    expect(MANUAL).toMatch(new RegExp(`^#### ${code}$`, 'm'));
  });

  it('has no example of a code that a bench does not show', () => {
    expect(BENCH_EXAMPLES.map(({ code }) => code).filter((code) => !CODES.some((known) => known === code))).toEqual([]);
  });

  it('names what else a bad example is reported with by codes that there are', () => {
    expect(BENCH_EXAMPLES.flatMap(({ also }) => also).filter((code) => !Object.hasOwn(PROBLEM_CODES, code))).toEqual([]);
  });
});
