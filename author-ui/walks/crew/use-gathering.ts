import { useCallback, useEffect, useRef, useState } from 'react';
import { ReviewDesk } from '../review/review-desk.ts';
import { type WalkSources, walksDb } from '../source/use-walk-sources.ts';
import type { WalkFilter } from '../source/walk-filter.ts';
import type { WalkSource } from '../source/walk-source.ts';
import { type Gathered, gatherWalks, NOTHING_GATHERED } from './gather-walks.ts';

export type Gathering = {
  readonly state: 'idle' | 'running' | 'stopped' | 'done';
  readonly now: Gathered;
  readonly desk: () => ReviewDesk;
  readonly start: (filter: WalkFilter, sources: readonly WalkSource[]) => void;
  readonly stop: () => void;
};

/** Reviews many walks in a worker, until done or stopped. What was reviewed before is not reviewed again. */
export function useGathering({ find }: Pick<WalkSources, 'find'>): Gathering {
  const [state, setState] = useState<Gathering['state']>('idle');
  const [now, setNow] = useState<Gathered>(NOTHING_GATHERED);
  const run = useRef(0);
  const held = useRef<ReviewDesk>(undefined);
  const desk = useCallback(() => {
    held.current ??= new ReviewDesk(walksDb);
    return held.current;
  }, []);
  const halt = useCallback(() => {
    run.current += 1;
    held.current?.stop();
  }, []);
  useEffect(() => halt, [halt]);
  const start = useCallback(
    (filter: WalkFilter, sources: readonly WalkSource[]) => {
      halt();
      const mine = run.current;
      const isMine = (): boolean => run.current === mine;
      setNow(NOTHING_GATHERED);
      setState('running');
      const from = { sources, find, review: (walk: Parameters<ReviewDesk['review']>[0]) => desk().review(walk), stopped: () => !isMine() };
      void gatherWalks(filter, from, (told) => {
        if (!isMine()) return;
        setNow(told);
        if (told.done) setState('done');
      }).catch(() => {
        // What nothing above it expected: it may be begun again, and goes on from what was reviewed.
        if (isMine()) setState('stopped');
      });
    },
    [find, desk, halt],
  );
  const stop = useCallback(() => {
    halt();
    setState('stopped');
  }, [halt]);
  return { state, now, desk, start, stop };
}
