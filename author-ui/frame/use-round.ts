import { useCallback, useState } from 'react';
import { RoundWaiters } from './round-waiters.ts';

/** Rounds of one question: `again` asks once more and resolves when that round, or one after it, is `answered`. */
export function useRound(): { readonly round: number; readonly again: () => Promise<void>; readonly answered: (round: number) => void } {
  const [waiters] = useState(() => new RoundWaiters());
  const [round, setRound] = useState(0);
  const again = useCallback(() => {
    const begun = waiters.begin();
    setRound(begun.round);
    return begun.answered;
  }, [waiters]);
  const answered = useCallback((of: number) => waiters.answered(of), [waiters]);
  return { round, again, answered };
}
