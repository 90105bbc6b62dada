import { useEffect, useRef } from 'react';
import { useDeskHub } from './desk-hub.tsx';

/** Asks once more what got no answer, as soon as the hub is there again. */
export function useAgainWhenBack(failed: boolean, again: () => void): void {
  const { state } = useDeskHub();
  const now = useRef({ failed, again });
  now.current = { failed, again };
  useEffect(() => {
    if (state === 'joined' && now.current.failed) now.current.again();
  }, [state]);
}
