import { useCallback, useEffect, useState } from 'react';
import { type NotReadable, type Opening, startOpening } from './start-opening.ts';
import { holdWalk } from './walk-lock.ts';

/** Opens something stored, and again when asked; `again(true)` takes it over from another tab. `opening` is what it hangs on: keep it the same between renders. */
export function useOpening<Open>(opening: Opening<Open>): {
  readonly open: Open | NotReadable | { readonly status: 'loading' };
  again(takeOver: boolean): void;
} {
  const [open, setOpen] = useState<Open | NotReadable | { readonly status: 'loading' }>({ status: 'loading' });
  const [attempt, setAttempt] = useState({ takeOver: false, count: 0 });
  useEffect(
    () => startOpening(opening, (id) => holdWalk(navigator.locks as LockManager | undefined, id, attempt.takeOver), setOpen),
    [opening, attempt],
  );
  const again = useCallback((takeOver: boolean) => {
    setOpen({ status: 'loading' });
    setAttempt(({ count }) => ({ takeOver, count: count + 1 }));
  }, []);
  return { open, again };
}
