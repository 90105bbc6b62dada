import { expect, test } from 'vitest';
import type { Problem } from '../../engine/problem.ts';
import { problemsText, shelfState } from './shelf-state.ts';

const problem = (severity: Problem['severity']): Problem => ({ severity, code: 'dead-end', message: '', file: '', line: 1, column: 1, fix: '' });
const shelved = { name: 'a', file: 'trees/a.tree.mdx', source: '', facts: {} };
const entry = { hash: `3f2a91bc${'0'.repeat(56)}`, name: 'a', title: 'A', complaint: '', steps: 1 };

test('an edition is shown by the start of its hash', () => {
  expect(shelfState({ ...shelved, problems: [problem('warning')], edition: entry })).toEqual({ edition: '3f2a91bc', errors: 0, warnings: 1 });
});

test('a tree with errors has none', () => {
  expect(shelfState({ ...shelved, problems: [problem('error'), problem('error'), problem('warning')] })).toEqual({ errors: 2, warnings: 1 });
});

test.each([
  [0, 0, 'no problems'],
  [1, 0, '1 error'],
  [2, 1, '2 errors, 1 warning'],
  [0, 3, '3 warnings'],
])('%i errors and %i warnings are told as %s', (errors, warnings, text) => expect(problemsText({ errors, warnings })).toBe(text));
