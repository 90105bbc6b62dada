import { useCallback, useEffect, useRef, useState } from 'react';
import type { Edition } from '../../engine/walk/index.ts';
import type { MinutesReport } from './minutes-report.ts';
import type { MinutesAnswer } from './minutes-worker.ts';

export type MinutesRun =
  | { readonly state: 'running'; readonly done: number; readonly of: number }
  | { readonly state: 'stopped' }
  | { readonly state: 'failed'; readonly detail: string }
  | { readonly state: 'done'; readonly report: MinutesReport };

/** Looks for the best order beside a proved edition, in a worker of its own: the proof's answers replays meanwhile. */
export function useMinutes(edition: Edition): { readonly run: MinutesRun; readonly start: () => void; readonly stop: () => void } {
  const [run, setRun] = useState<MinutesRun>({ state: 'running', done: 0, of: 0 });
  const worker = useRef<Worker>(undefined);

  const end = useCallback(() => {
    worker.current?.terminate();
    worker.current = undefined;
  }, []);
  const start = useCallback(() => {
    end();
    setRun({ state: 'running', done: 0, of: 0 });
    const started = new Worker(new URL('./minutes-worker.ts', import.meta.url), { type: 'module', name: 'minutes' });
    worker.current = started;
    started.addEventListener('message', ({ data }: MessageEvent<MinutesAnswer>) => {
      if (data.stage === 'benches') setRun({ state: 'running', done: data.done, of: data.of });
      else {
        setRun({ state: 'done', report: data.report });
        end();
      }
    });
    started.addEventListener('error', (event) =>
      setRun({ state: 'failed', detail: event.message || 'The part of the desk that does it did not start.' }),
    );
    started.postMessage(edition);
  }, [edition, end]);
  const stop = useCallback(() => {
    end();
    setRun({ state: 'stopped' });
  }, [end]);

  useEffect(() => {
    start();
    return end;
  }, [start, end]);
  return { run, start, stop };
}
