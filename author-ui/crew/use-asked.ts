import { useCallback, useEffect, useRef, useState } from 'react';
import type { Result } from '../../engine/result.ts';
import type { HubProblem } from '../../shared/sync/hub-problem.ts';
import { useRound } from '../frame/use-round.ts';
import { useDeskHub } from './desk-hub.tsx';
import { useAgainWhenBack } from './use-again-when-back.ts';

/** What the hub answered. While it is asked again, the answer before stays. */
export type Asked<T> = {
  readonly state: 'asking' | 'ready' | 'failed';
  readonly value?: T;
  readonly problem?: HubProblem;
  /** Asks once more; resolves when that is answered. */
  readonly again: () => Promise<void>;
};

/** Asks the hub one question, again when the question or `after` changes, and shows what came of it. `question` has to stay the same between drawings. */
export function useAsked<T>(question: () => Promise<Result<T, HubProblem>>, after = 0): Asked<T> {
  const { noticeRefusal } = useDeskHub();
  const { round, again, answered } = useRound();
  const [shown, setShown] = useState<Omit<Asked<T>, 'again'>>({ state: 'asking' });
  const asked = useRef(question);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same question is asked again after each of these.
  useEffect(() => {
    let left = false;
    // What another question was answered is not shown as the answer to this one.
    const isSame = asked.current === question;
    asked.current = question;
    setShown((before) => ({ state: 'asking', ...(isSame && before.value !== undefined && { value: before.value }) }));
    void question().then((answer) => {
      if (left) return;
      answered(round);
      if (answer.ok) setShown({ state: 'ready', value: answer.value });
      else {
        setShown((before) => ({ state: 'failed', problem: answer.problem, ...(before.value !== undefined && { value: before.value }) }));
        noticeRefusal(answer.problem);
      }
    });
    return () => {
      left = true;
    };
  }, [question, round, after, answered, noticeRefusal]);
  useAgainWhenBack(shown.state === 'failed', again);
  return { ...shown, again };
}

/** One thing that the hub is asked to do: whether it is being done, and why it was not. `isLast`: nothing can be asked of the hub after it. */
export function useDeed({ isLast = false } = {}): {
  readonly busy: boolean;
  readonly problem: HubProblem | undefined;
  readonly run: <T>(deed: () => Promise<Result<T, HubProblem>>) => Promise<T | undefined>;
} {
  const { noticeRefusal, noticeDeed } = useDeskHub();
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<HubProblem>();
  const run = useCallback(
    async <T>(deed: () => Promise<Result<T, HubProblem>>): Promise<T | undefined> => {
      setBusy(true);
      setProblem(undefined);
      const answer = await deed();
      setBusy(false);
      if (answer.ok) {
        if (!isLast) noticeDeed();
        return answer.value;
      }
      setProblem(answer.problem);
      noticeRefusal(answer.problem);
      return undefined;
    },
    [noticeRefusal, noticeDeed, isLast],
  );
  return { busy, problem, run };
}
