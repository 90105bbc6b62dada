import { useCallback, useRef, useState } from 'react';

/** Rounds of one question: `again` asks once more and resolves when that round is `answered`. */
export function useRound(): { readonly round: number; readonly again: () => Promise<void>; readonly answered: () => void } {
  const [round, setRound] = useState(0);
  const waiting = useRef<(() => void)[]>([]);
  const again = useCallback(
    () =>
      new Promise<void>((resolve) => {
        waiting.current.push(resolve);
        setRound((before) => before + 1);
      }),
    [],
  );
  const answered = useCallback(() => {
    for (const done of waiting.current.splice(0)) done();
  }, []);
  return { round, again, answered };
}
