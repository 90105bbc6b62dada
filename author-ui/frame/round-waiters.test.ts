import { expect, test } from 'vitest';
import { RoundWaiters } from './round-waiters.ts';

/** Whether a promise is resolved by now. */
async function isDone(promise: Promise<void>): Promise<boolean> {
  let done = false;
  void promise.then(() => {
    done = true;
  });
  await new Promise((resolve) => setTimeout(resolve));
  return done;
}

test('an answer to the round before does not end the wait for the next one', async () => {
  const waiters = new RoundWaiters();
  const { round, answered } = waiters.begin();
  waiters.answered(round - 1);
  expect(await isDone(answered)).toBe(false);
  waiters.answered(round);
  expect(await isDone(answered)).toBe(true);
});

test('where rounds overtake each other, the answer to the last one ends every wait', async () => {
  const waiters = new RoundWaiters();
  const [first, second] = [waiters.begin(), waiters.begin()];
  waiters.answered(second.round);
  expect(await isDone(first.answered)).toBe(true);
  expect(await isDone(second.answered)).toBe(true);
});
