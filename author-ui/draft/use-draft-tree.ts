import { useCallback, useEffect, useRef, useState } from 'react';
import type { Problem } from '../../engine/problem.ts';
import type { DraftAnswer, DraftReport, DraftRequest, DraftStage } from './draft-message.ts';

export type DraftRun =
  | { readonly state: 'idle' }
  | { readonly state: 'running'; readonly stage: DraftStage; readonly opened: number; readonly most: number }
  | { readonly state: 'stopped' }
  | { readonly state: 'failed'; readonly detail: string }
  | { readonly state: 'no-draft'; readonly message: string; readonly fix: string; readonly problems: readonly Problem[] }
  | { readonly state: 'drafted'; readonly report: DraftReport };

export type UseDraftTree = {
  readonly run: DraftRun;
  readonly start: (request: DraftRequest) => void;
  readonly stop: () => void;
  /** Back to the choice, with nothing drafted. */
  readonly forget: () => void;
};

/** Drafts a tree in a worker; stopping ends the worker, and nothing has been written. */
export function useDraftTree(): UseDraftTree {
  const [run, setRun] = useState<DraftRun>({ state: 'idle' });
  const worker = useRef<Worker>(undefined);

  const end = useCallback(() => {
    worker.current?.terminate();
    worker.current = undefined;
  }, []);
  useEffect(() => end, [end]);

  const start = useCallback(
    (request: DraftRequest) => {
      end();
      setRun({ state: 'running', stage: 'reading', opened: 0, most: 1 });
      const started = new Worker(new URL('./draft-worker.ts', import.meta.url), { type: 'module', name: 'draft' });
      worker.current = started;
      started.addEventListener('message', ({ data }: MessageEvent<DraftAnswer>) => {
        if (data.stage === 'drafted') setRun({ state: 'drafted', report: data.report });
        else if (data.stage === 'no-draft') setRun({ state: 'no-draft', message: data.message, fix: data.fix, problems: data.problems });
        else setRun({ state: 'running', stage: data.stage, opened: data.opened, most: data.most });
      });
      started.addEventListener('error', (event) =>
        setRun({ state: 'failed', detail: event.message || 'The part of the desk that drafts did not start.' }),
      );
      started.postMessage(request);
    },
    [end],
  );
  const stop = useCallback(() => {
    end();
    setRun({ state: 'stopped' });
  }, [end]);
  const forget = useCallback(() => {
    end();
    setRun({ state: 'idle' });
  }, [end]);
  return { run, start, stop, forget };
}
