import { describe, expect, it } from 'vitest';
import { PROBLEM_CODE_NAMES, PROBLEM_CODES, type ProblemCode } from './problem-codes.ts';
import type { ProblemData } from './tree-problem.ts';
import { worded } from './wording.ts';

const place = { line: 3, column: 5, endLine: 3, endColumn: 9 };

// One for each code; those that the reader and its rules report are also read from the manual's examples.
const SAMPLES: { readonly [C in ProblemCode]: Extract<ProblemData, { code: C }> } = {
  'not-readable': { code: 'not-readable', what: 'not-closed', name: 'Caution' },
  'unknown-component': { code: 'unknown-component', name: 'Loook', suggestion: 'Look' },
  'misplaced-component': { code: 'misplaced-component', name: 'Photo', why: 'in-text' },
  'unknown-attribute': { code: 'unknown-attribute', owner: 'Look', name: 'sing', known: ['sign'], suggestion: 'sign' },
  'bad-attribute': { code: 'bad-attribute', owner: 'the front matter', name: 'title', fault: 'missing', expected: { form: 'text' } },
  'code-in-prose': { code: 'code-in-prose', what: 'expression', text: '{x}' },
  'not-kept': { code: 'not-kept', what: 'definition', text: '[a]: b' },
  'comment-not-kept': { code: 'comment-not-kept', what: 'front-matter', text: '# mine' },
  'bad-heading': { code: 'bad-heading', why: 'not-plain', title: 'Water runs' },
  'no-task': { code: 'no-task', title: 'Water runs' },
  'bad-way': { code: 'bad-way', why: 'no-link', text: 'dry' },
  'duplicate-step': { code: 'duplicate-step', id: 'water-runs', title: 'Water runs', firstLine: 9 },
  'no-start': { code: 'no-start' },
  'missing-target': { code: 'missing-target', what: 'step', name: 'water-rnus', suggestion: 'water-runs' },
  'unreachable-step': { code: 'unreachable-step', title: 'Water runs' },
  'dead-end': { code: 'dead-end', title: 'Water runs', kind: 'look' },
  'endless-loop': { code: 'endless-loop', titles: ['A', 'B', 'C'] },
  'band-gap': { code: 'band-gap', from: '2 V', to: '20.4 V', facts: ['coil-rated 24 V'] },
  'band-overlap': { code: 'band-overlap', from: '2 V', bands: ['above 2 V', 'above 3 V'], facts: [] },
  'way-on-missing': { code: 'way-on-missing', why: 'ask-choice', title: 'Fuel', fact: 'fuel', choice: 'oil' },
  'repair-missing': { code: 'repair-missing', title: 'The coil is open' },
  'bad-band': { code: 'bad-band', band: 'belwo 2 V', why: 'cannot-read', found: '2 V', expected: '“to”' },
  'bad-formula': { code: 'bad-formula', shows: 'Dew point', why: 'other-unit', unit: 'gpd', gives: 'temperature' },
  'unit-mismatch': { code: 'unit-mismatch', what: 'band', band: 'below 2 ohm', wants: 'voltage', got: 'resistance', unitless: false, example: 'V' },
  'unknown-fact': { code: 'unknown-fact', name: 'coil-rate', known: ['coil-rated'], suggestion: 'coil-rated' },
  'unknown-terminal': { code: 'unknown-terminal', name: 'COM', of: 'points', known: ['R', 'C'] },
  'unknown-setting': { code: 'unknown-setting', name: 'up', of: 'power', known: ['on', 'off'] },
  'unknown-sign': { code: 'unknown-sign', name: 'lit', known: [] },
  'unknown-fault': { code: 'unknown-fault', name: 'x', known: ['coil-open'] },
  'unknown-bench': { code: 'unknown-bench', name: 'x', known: [] },
  'setting-not-held': { code: 'setting-not-held', setting: 'power', wants: 'off', is: 'on', title: 'Coil ohms' },
  'no-caution': { code: 'no-caution', title: 'Water runs' },
  'caution-too-mild': { code: 'caution-too-mild', title: 'Power', about: 'line-voltage', needs: 'warning', has: 'notice' },
  'resistance-while-live': { code: 'resistance-while-live', title: 'Coil ohms', points: ['V1', 'C'], source: 'mains' },
  'touched-while-live': { code: 'touched-while-live', title: 'Jumper', action: 'jumper K1 to K2', point: 'K1', source: 'mains' },
  'not-proved-dead': { code: 'not-proved-dead', title: 'Lift', points: ['L1', 'N'], source: 'mains', when: 'the switch is not really off' },
  'meter-not-proved': { code: 'meter-not-proved', title: 'Dead?', when: 'after' },
  'no-recheck': { code: 'no-recheck', why: 'no-such-way', text: 'wet', suggestion: 'runs' },
  'left-in-place': { code: 'left-in-place', title: 'Hand over', left: 'the jumper K1 to K2', why: 'unsafe-to-put-back' },
  'safety-bypassed': { code: 'safety-bypassed', title: 'Jumper', part: 'limit', action: 'jumper L to M' },
  'fault-missed': { code: 'fault-missed', bench: 'own-transformer', fault: 'coil-open', endsAt: 'Hand over' },
  'fault-misnamed': {
    code: 'fault-misnamed',
    bench: 'own-transformer',
    fault: 'coil-open',
    named: ['feed-missing', 'cock-shut'],
    endsAt: 'The feed',
  },
  'healthy-condemned': { code: 'healthy-condemned', bench: 'own-transformer', named: ['coil-open'], endsAt: 'The coil' },
  'too-close-to-call': { code: 'too-close-to-call', title: 'Power', band: 'below 2 V', reads: '1.99 V', edge: '2 V', bench: 'b', fault: undefined },
  'fooled-by-stray-voltage': { code: 'fooled-by-stray-voltage', title: 'K2', reads: '9 V', truly: '0 V', bench: 'b', fault: 'coil-open' },
  'fooled-by-parallel-path': {
    code: 'fooled-by-parallel-path',
    title: 'Coil',
    reads: '30 ohm',
    truly: 'OL',
    through: 'control',
    bench: 'b',
    fault: 'coil-open',
  },
  'wasted-step': { code: 'wasted-step', title: 'Look', on: 'lit' },
};

describe('wording', () => {
  it.each(PROBLEM_CODE_NAMES)('says what is wrong and the way out of %s', (code) => {
    const problem = worded({ ...SAMPLES[code], place, step: 'a-step', path: ['one', 'two'] }, 'trees/a.tree.mdx');
    expect(problem).toMatchObject({
      code,
      severity: PROBLEM_CODES[code].severity,
      file: 'trees/a.tree.mdx',
      step: 'a-step',
      path: ['one', 'two'],
      ...place,
    });
    for (const words of [problem.message, problem.fix]) {
      expect(words).toMatch(/^[“<A-Z0-9].*[.?]$/);
      expect(words).not.toMatch(/undefined|NaN|\[object|null/);
    }
  });

  it('shortens what a file says to what fits in a message', () => {
    const { message } = worded({ code: 'unknown-component', name: 'x'.repeat(5000), place }, 'a.tree.mdx');
    expect(message.length).toBeLessThan(200);
  });
});
