import { useCallback, useEffect, useState } from 'react';
import { type HeldWalk, holdWalk } from './walk-lock.ts';

/** Holds something for this tab alone; undefined where another tab has it. It is let go when the page leaves it. */
export type Hold = (id: string) => Promise<HeldWalk | undefined>;

/** Opens something stored, and again when asked; `again(true)` takes it over from another tab. `opening` is what it hangs on: keep it the same between renders. */
export function useOpening<Open>(opening: (hold: Hold) => Promise<Open>): {
  readonly open: Open | { readonly status: 'loading' };
  again(takeOver: boolean): void;
} {
  const [open, setOpen] = useState<Open | { readonly status: 'loading' }>({ status: 'loading' });
  const [attempt, setAttempt] = useState({ takeOver: false, count: 0 });
  useEffect(() => {
    let left = false;
    let release = (): void => undefined;
    const hold: Hold = async (id) => {
      const held = await holdWalk(navigator.locks as LockManager | undefined, id, attempt.takeOver);
      if (held) release = held.release;
      return held;
    };
    void opening(hold).then((next) => {
      if (left) release();
      else setOpen(next);
    });
    return () => {
      left = true;
      release();
    };
  }, [opening, attempt]);
  const again = useCallback((takeOver: boolean) => {
    setOpen({ status: 'loading' });
    setAttempt(({ count }) => ({ takeOver, count: count + 1 }));
  }, []);
  return { open, again };
}
