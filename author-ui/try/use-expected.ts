import { createContext, useContext, useEffect, useRef, useState } from 'react';
import { useDeskFiles } from '../store/use-desk-store.ts';
import type { ExpectedValues } from './expected-values.ts';
import { sourcesToWalk } from './sources-to-walk.ts';
import type { ExpectedAnswer, ExpectedRequest } from './try-message.ts';

/**
 * What the benches show on each reading step. `values` are of the text that was walked last; `state` says whether that is the text as it
 * stands, is being walked, or cannot be for its errors.
 */
export type ExpectedNow = { readonly state: 'walking' | 'now' | 'errors' | 'failed'; readonly values?: ExpectedValues };

const PAUSE = 350;

/** Walks the benches of a tree in a worker, again whenever a file changes; answers about an older text are dropped. Begins when it is first wanted. */
export function useExpected(name: string, isWantedNow: boolean): ExpectedNow {
  const files = useDeskFiles();
  const [isWanted, setWanted] = useState(isWantedNow);
  if (isWantedNow && !isWanted) setWanted(true);
  const [now, setNow] = useState<ExpectedNow>({ state: 'walking' });
  const worker = useRef<Worker>(undefined);
  const latest = useRef(0);

  useEffect(() => {
    if (!isWanted) return;
    const started = new Worker(new URL('./expected-worker.ts', import.meta.url), { type: 'module', name: 'expected' });
    worker.current = started;
    started.addEventListener('message', ({ data }: MessageEvent<ExpectedAnswer>) => {
      if (data.request !== latest.current) return;
      if (data.stage === 'not-read') setNow({ state: 'errors' });
      else setNow({ state: data.values.corners === 'all' ? 'now' : 'walking', values: data.values });
    });
    started.addEventListener('error', () => setNow({ state: 'failed' }));
    return () => {
      started.terminate();
      worker.current = undefined;
    };
  }, [isWanted]);

  useEffect(() => {
    if (!isWanted) return;
    latest.current += 1;
    const request = latest.current;
    setNow((before) => (before.state === 'failed' ? before : { ...before, state: 'walking' }));
    const waiting = setTimeout(() => {
      const message: ExpectedRequest = { request, name, sources: sourcesToWalk(files) };
      worker.current?.postMessage(message);
    }, PAUSE);
    return () => clearTimeout(waiting);
  }, [files, name, isWanted]);

  return now;
}

export const ExpectedContext = createContext<ExpectedNow>({ state: 'walking' });

export const useExpectedNow = (): ExpectedNow => useContext(ExpectedContext);
