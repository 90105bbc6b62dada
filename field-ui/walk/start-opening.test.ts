import { expect, it, vi } from 'vitest';
import { pending } from './pending.ts';
import { startOpening } from './start-opening.ts';
import type { HeldWalk } from './walk-lock.ts';

const lock = () => ({ release: vi.fn(), taken: new Promise<void>(() => undefined) }) satisfies HeldWalk;

it('what was opened is shown, and held until the page leaves it', async () => {
  const [held, show] = [lock(), vi.fn()];
  let left: AbortSignal | undefined;
  const leave = startOpening(
    async (hold, leaving) => {
      left = leaving;
      return { status: (await hold('walk-1')) ? 'open' : 'held-elsewhere' };
    },
    async () => held,
    show,
  );
  await vi.waitFor(() => expect(show).toHaveBeenCalledWith({ status: 'open' }));
  expect(held.release).not.toHaveBeenCalled();
  leave();
  expect(held.release).toHaveBeenCalled();
  expect(left?.aborted).toBe(true);
});

it('what cannot be opened is told, and is let go', async () => {
  const [held, show] = [lock(), vi.fn()];
  startOpening(
    async (hold) => {
      await hold('walk-1');
      throw new Error('a formula of the edition cannot be read');
    },
    async () => held,
    show,
  );
  await vi.waitFor(() => expect(show).toHaveBeenCalledOnce());
  expect(show.mock.lastCall).toMatchObject([{ status: 'not-readable', problem: { code: 'not-available' } }]);
  expect(held.release).toHaveBeenCalled();
});

it('a hold that comes only after the page was left is let go at once, before anything is read', async () => {
  const [held, show, read] = [lock(), vi.fn(), vi.fn()];
  const asked = pending<HeldWalk>();
  const leave = startOpening(
    async (hold) => {
      if (await hold('walk-1')) await new Promise(() => read());
      return { status: 'held-elsewhere' };
    },
    () => asked.promise,
    show,
  );
  leave();
  asked.resolve(held);
  await vi.waitFor(() => expect(held.release).toHaveBeenCalled());
  expect(read).not.toHaveBeenCalled();
  expect(show).not.toHaveBeenCalled();
});
