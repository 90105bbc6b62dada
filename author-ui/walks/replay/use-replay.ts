import { useCallback, useEffect, useRef, useState } from 'react';
import type { Edition } from '../../../engine/walk/index.ts';
import type { FrameSuspects, ReplayedFrames } from './replay-frame.ts';
import type { ReplayAnswer, ReplayRequest } from './replay-message.ts';

export type ReplayNow = {
  readonly replayed?: ReplayedFrames;
  readonly suspects: ReadonlyMap<number, FrameSuspects>;
  readonly failed?: string;
  /** Says which line is looked at now. */
  readonly look: (at: number) => void;
};

/** Replays a log in a worker: its lines at once, then the suspects of every line, nearest first. */
export function useReplay(edition: Edition | undefined, lines: readonly unknown[] | undefined, at: number): ReplayNow {
  const [replayed, setReplayed] = useState<ReplayedFrames>();
  const [suspects, setSuspects] = useState<ReadonlyMap<number, FrameSuspects>>(new Map());
  const [failed, setFailed] = useState<string>();
  const worker = useRef<Worker>(undefined);
  const first = useRef(at);
  useEffect(() => {
    if (!edition || !lines) return;
    const started = new Worker(new URL('./replay-worker.ts', import.meta.url), { type: 'module', name: 'replay' });
    worker.current = started;
    setReplayed(undefined);
    setSuspects(new Map());
    setFailed(undefined);
    started.addEventListener('message', ({ data }: MessageEvent<ReplayAnswer>) => {
      if (data.stage === 'frames') setReplayed(data.replayed);
      else setSuspects((before) => new Map(before).set(data.at, data.suspects));
    });
    started.addEventListener('error', (event) => setFailed(event.message || 'The part of the desk that replays walks did not start.'));
    const message: ReplayRequest = { ask: 'replay', edition, lines, at: first.current };
    started.postMessage(message);
    return () => {
      started.terminate();
      worker.current = undefined;
    };
  }, [edition, lines]);
  const look = useCallback((line: number) => {
    first.current = line;
    const message: ReplayRequest = { ask: 'look', at: line };
    worker.current?.postMessage(message);
  }, []);
  return { ...(replayed && { replayed }), suspects, ...(failed !== undefined && { failed }), look };
}
