import { expect, test } from 'vitest';
import { plainProse, readProse } from './read-prose.ts';

test.each(['', 'Red lead on **R**, black on *C*.', '- one\n- two', '### Look first\n\nThen [read](#power-at-r-and-c).', '> a word from the shop'])(
  '%j is prose and stays as it is',
  (text) => expect(plainProse(text)).toBe(text),
);

test.each([
  ['a second-level heading', 'x\n\n## Another step', 3],
  ['a component', '<Caution signal="notice" about="water" />', 1],
  ['an expression', 'one\n\ntwo {3}', 3],
  ['a tag', '<b>bold</b>', 1],
])('%s is told', (_, text) => {
  const read = readProse(text);
  expect(read.ok).toBe(false);
  expect(!read.ok && read.problem.message.length).toBeGreaterThan(10);
});

test('the line of a problem is that of the text', () => {
  const read = readProse('one\n\ntwo {3}');
  expect(!read.ok && read.problem.line).toBe(3);
});
