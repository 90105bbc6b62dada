import { useCallback, useEffect, useRef, useState } from 'react';
import type { Problem } from '../../engine/problem.ts';
import type { Edition } from '../../engine/walk/index.ts';
import type { DeskFile } from '../store/desk-file.ts';
import { sourcesOf } from '../store/sources-of.ts';
import { useDeskFiles } from '../store/use-desk-store.ts';
import type { CaseAsked, ProofAnswer, ProofRequest } from './proof-message.ts';
import type { ProofReport } from './proof-report.ts';
import type { Replay } from './replay.ts';

export type ProofRun =
  | { readonly state: 'running'; readonly stage: 'reading' | 'paths' | 'faults'; readonly done: number; readonly of: number }
  | { readonly state: 'stopped'; readonly done: number; readonly of: number }
  | { readonly state: 'not-proved'; readonly problems: readonly Problem[]; readonly why?: string }
  | { readonly state: 'failed'; readonly detail: string }
  | { readonly state: 'proved'; readonly report: ProofReport; readonly edition: Edition; readonly hash: string };

export type ReplayAsked = { readonly which: CaseAsked; readonly replay: Replay | undefined; readonly state: 'asked' | 'there' };

export type UseProof = {
  readonly run: ProofRun;
  /** A file has changed since what is shown was proved. */
  readonly stale: boolean;
  readonly replay: ReplayAsked | undefined;
  readonly start: () => void;
  readonly stop: () => void;
  readonly ask: (which: CaseAsked) => void;
  readonly closeReplay: () => void;
};

const READING: ProofRun = { state: 'running', stage: 'reading', done: 0, of: 0 };

/** Proves a tree of the desk in a worker, once when the page opens and again when asked; stopping ends the worker. */
export function useProof(name: string): UseProof {
  const files = useDeskFiles();
  const [run, setRun] = useState<ProofRun>(READING);
  const [of, setOf] = useState<ReadonlyMap<string, DeskFile>>(files);
  const [replay, setReplay] = useState<ReplayAsked>();
  const worker = useRef<Worker>(undefined);
  const latest = useRef(files);
  latest.current = files;

  const end = useCallback(() => {
    worker.current?.terminate();
    worker.current = undefined;
  }, []);

  const start = useCallback(() => {
    end();
    setRun(READING);
    setReplay(undefined);
    setOf(latest.current);
    const started = new Worker(new URL('./proof-worker.ts', import.meta.url), { type: 'module', name: 'proof' });
    worker.current = started;
    started.addEventListener('message', ({ data }: MessageEvent<ProofAnswer>) => {
      switch (data.stage) {
        case 'paths':
          setRun({ state: 'running', stage: 'paths', done: 0, of: 0 });
          return;
        case 'faults':
          setRun({ state: 'running', stage: 'faults', done: data.done, of: data.of });
          return;
        case 'proved':
          setRun({ state: 'proved', report: data.report, edition: data.edition, hash: data.hash });
          return;
        case 'not-proved':
          setRun({ state: 'not-proved', problems: data.problems, ...(data.why !== undefined && { why: data.why }) });
          return;
        case 'replayed':
          setReplay((asked) => (asked?.which === undefined || !sameCase(asked.which, data.which) ? asked : { ...data, state: 'there' }));
          return;
      }
    });
    started.addEventListener('error', (event) =>
      setRun({ state: 'failed', detail: event.message || 'The part of the desk that proves did not start.' }),
    );
    const message: ProofRequest = { ask: 'prove', name, sources: sourcesOf(latest.current, []) };
    started.postMessage(message);
  }, [name, end]);

  useEffect(() => {
    start();
    return end;
  }, [start, end]);

  const stop = useCallback(() => {
    end();
    setRun((now) => (now.state === 'running' ? { state: 'stopped', done: now.done, of: now.of } : now));
  }, [end]);

  const ask = useCallback((which: CaseAsked) => {
    setReplay({ which, replay: undefined, state: 'asked' });
    const message: ProofRequest = { ask: 'replay', which };
    worker.current?.postMessage(message);
  }, []);
  const closeReplay = useCallback(() => setReplay(undefined), []);

  return { run, stale: of !== files, replay, start, stop, ask, closeReplay };
}

export const sameCase = (a: CaseAsked, b: CaseAsked): boolean => a.bench === b.bench && a.fault === b.fault && a.end === b.end;
