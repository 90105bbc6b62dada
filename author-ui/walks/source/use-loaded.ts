import { useEffect, useState } from 'react';
import type { Result } from '../../../engine/result.ts';
import { useRound } from '../../frame/use-round.ts';
import type { SourceProblem } from './walk-source.ts';

export type Loaded<T> = {
  readonly state: 'loading' | 'ready' | 'failed';
  readonly value?: T;
  readonly problem?: SourceProblem;
  /** Asks once more; resolves when that is answered. */
  readonly again: () => Promise<void>;
};

/** Asks once, and again when the question changes or `again` is called; what was answered before stays while it is asked again. */
export function useLoaded<T>(ask: (() => Promise<Result<T, SourceProblem>>) | undefined): Loaded<T> {
  const { round, again, answered } = useRound();
  const [now, setNow] = useState<Omit<Loaded<T>, 'again'>>({ state: 'loading' });
  useEffect(() => {
    if (!ask) return;
    let left = false;
    void ask().then((answer) => {
      if (left) return;
      answered(round);
      setNow(answer.ok ? { state: 'ready', value: answer.value } : { state: 'failed', problem: answer.problem });
    });
    return () => {
      left = true;
    };
  }, [ask, round, answered]);
  return { ...now, again };
}
