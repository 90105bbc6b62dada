import { expect, test } from 'vitest';
import { type DeskHistory, NO_HISTORY, reversed, stepBack, stepForward, withDone } from './desk-history.ts';

const typed = (before: string, after: string, at: number, label = 'Change the title') => ({
  label,
  at,
  changes: [{ path: 'a.tree.mdx', before, after }],
});
const after = (...entries: Parameters<typeof withDone>[1][]): DeskHistory => entries.reduce(withDone, NO_HISTORY);

test('typing without a pause is one step, with what was there before the first stroke', () => {
  const { done } = after(typed('', 'P', 0), typed('P', 'Po', 300), typed('Po', 'Pow', 1000));
  expect(done).toHaveLength(1);
  expect(done[0]?.changes).toEqual([{ path: 'a.tree.mdx', before: '', after: 'Pow' }]);
});

test.each([
  ['a pause', typed('P', 'Po', 5000)],
  ['other work', typed('P', 'Po', 300, 'Add a way on')],
  ['a text that came from elsewhere', typed('Q', 'Po', 300)],
  ['several files', { label: 'Change the title', at: 300, changes: [...typed('P', 'Po', 0).changes, { path: 'b', before: 'x', after: 'y' }] }],
])('%s begins a new step', (_, next) => expect(after(typed('', 'P', 0), next).done).toHaveLength(2));

test('typing that several files follow is one step, also where one stroke is about the first of them only', () => {
  const followed = (before: string, after: string, at: number) => ({
    label: 'Change the title',
    at,
    changes: ['a', 'b'].map((path) => ({ path, before, after })),
  });
  const { done } = after(followed('', 'P', 0), followed('P', 'Po', 300), {
    label: 'Change the title',
    at: 600,
    changes: [{ path: 'a', before: 'Po', after: 'Po ' }],
  });
  expect(done.map(({ changes }) => changes)).toEqual([
    [
      { path: 'a', before: '', after: 'Po ' },
      { path: 'b', before: '', after: 'Po' },
    ],
  ]);
});

test('making and removing a file are steps of their own', () => {
  const made = { label: 'New tree', at: 0, changes: [{ path: 'a.tree.mdx', before: undefined, after: 'x' }] };
  const removed = { label: 'New tree', at: 10, changes: [{ path: 'a.tree.mdx', before: 'x', after: undefined }] };
  expect(after(made, removed).done).toHaveLength(2);
});

test('back and forward come out where they began, and new work ends what could be done again', () => {
  const history = after(typed('', 'P', 0), typed('P', 'Q', 9000));
  const back = stepBack(history);
  expect(back && reversed(back.entry)).toEqual([{ path: 'a.tree.mdx', before: 'Q', after: 'P' }]);
  const forward = back && stepForward(back.history);
  expect(forward?.history.done.map(({ label }) => label)).toEqual(history.done.map(({ label }) => label));
  expect(forward?.history.undone).toEqual([]);
  expect(back && withDone(back.history, typed('P', 'R', 9100)).undone).toEqual([]);
});
