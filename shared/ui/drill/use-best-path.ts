import { useEffect, useState } from 'react';
import type { DrillTask } from '../../../engine/review/index.ts';
import type { WalkableEdition } from '../../../engine/walk/index.ts';
import type { BestPathAnswer, BestPathRequest } from './best-path-worker.ts';

/** The best way to the hidden fault, worked out beside the screen; undefined until it is there. */
export function useBestPath(edition: WalkableEdition, task: DrillTask): BestPathAnswer | undefined {
  const [answer, setAnswer] = useState<BestPathAnswer>();
  useEffect(() => {
    setAnswer(undefined);
    const worker = new Worker(new URL('./best-path-worker.ts', import.meta.url), { type: 'module', name: 'best-path' });
    worker.addEventListener('message', ({ data }: MessageEvent<BestPathAnswer>) => setAnswer(data));
    worker.addEventListener('error', ({ message }) => setAnswer({ failed: message || 'the part of the app that works it out did not start' }));
    const request: BestPathRequest = { edition: edition.compiled.edition, task };
    worker.postMessage(request);
    return () => worker.terminate();
  }, [edition, task]);
  return answer;
}
