import { useCallback, useEffect, useRef, useState } from 'react';
import type { Problem } from '../../engine/problem.ts';
import { useDeskFiles } from '../store/use-desk-store.ts';
import { sourcesToWalk } from './sources-to-walk.ts';
import type { TryAnswer, TryRequest } from './try-message.ts';
import { AS_FOUND, type TryMove, type TryOffer, type TrySetup, type TryState } from './try-state.ts';

export type TryNow = {
  readonly setup: TrySetup;
  /** Of the tree as it is written now; absent until it was read, and while it has errors. */
  readonly offer?: TryOffer;
  readonly errors?: { readonly problems: readonly Problem[]; readonly why?: string };
  readonly failed?: string;
  readonly state?: TryState;
  /** The text has changed since `state`. */
  readonly isReading: boolean;
  /** Grows with every answer to a move that the author made: not where the text changed, and not where it began anew. */
  readonly moved: number;
  begin(change: Partial<TrySetup>): void;
  take(move: TryMove): void;
  back(): void;
};

const PAUSE = 300;

/** A tree of the desk as it is tried, in a worker. Where its text changes, the moves so far are made again on the new one. */
export function useTry(name: string, from: string | undefined): TryNow {
  const files = useDeskFiles();
  const [setup, setSetup] = useState<TrySetup>({ bench: undefined, fault: undefined, facts: {}, from, begin: AS_FOUND });
  const [moves, setMoves] = useState<readonly TryMove[]>([]);
  const [offer, setOffer] = useState<TryOffer>();
  const [errors, setErrors] = useState<TryNow['errors']>();
  const [failed, setFailed] = useState<string>();
  const [state, setState] = useState<TryState>();
  const [isReading, setReading] = useState(true);
  const [moved, setMoved] = useState(0);
  const worker = useRef<Worker>(undefined);
  const latest = useRef({ files: 0, walk: 0 });
  /** Whether the author just made a move, and the request that it went out with. */
  const own = useRef({ isMove: false, request: 0 });

  useEffect(() => {
    const started = new Worker(new URL('./try-worker.ts', import.meta.url), { type: 'module', name: 'try' });
    worker.current = started;
    started.addEventListener('message', ({ data }: MessageEvent<TryAnswer>) => {
      switch (data.stage) {
        case 'ready':
          if (data.request !== latest.current.files) return;
          setReading(false);
          setErrors(undefined);
          setOffer(data.offer);
          return;
        case 'not-ready':
          if (data.request !== latest.current.files) return;
          setReading(false);
          setErrors({ problems: data.problems, ...(data.why !== undefined && { why: data.why }) });
          return;
        case 'walked':
          if (data.request !== latest.current.walk) return;
          setState(data.state);
          if (data.request === own.current.request) setMoved((count) => count + 1);
          return;
      }
    });
    started.addEventListener('error', (event) => setFailed(event.message || 'The part of the desk that walks trees did not start.'));
    return () => {
      started.terminate();
      worker.current = undefined;
    };
  }, []);

  useEffect(() => {
    latest.current.files += 1;
    const message: TryRequest = { ask: 'files', request: latest.current.files, name, sources: sourcesToWalk(files) };
    setReading(true);
    const waiting = setTimeout(() => worker.current?.postMessage(message), latest.current.files === 1 ? 0 : PAUSE);
    return () => clearTimeout(waiting);
  }, [files, name]);

  // A bench or fault that is gone from the tree is let go of; the first bench is what one begins with.
  useEffect(() => {
    if (!offer) return;
    setSetup((now) => {
      const bench = now.bench !== undefined && Object.hasOwn(offer.benches, now.bench) ? now.bench : Object.keys(offer.benches)[0];
      const isThere = now.fault === undefined || (bench !== undefined && Object.hasOwn(offer.benches[bench]?.faults ?? {}, now.fault));
      return bench === now.bench && isThere ? now : { ...now, bench, fault: isThere ? now.fault : undefined };
    });
  }, [offer]);

  useEffect(() => {
    if (!offer) return;
    if (setup.bench === undefined && Object.keys(offer.benches).length > 0) return;
    latest.current.walk += 1;
    if (own.current.isMove) own.current = { isMove: false, request: latest.current.walk };
    const message: TryRequest = { ask: 'walk', request: latest.current.walk, setup, moves };
    worker.current?.postMessage(message);
  }, [offer, setup, moves]);

  const begin = useCallback((change: Partial<TrySetup>) => {
    setSetup((now) => ({ ...now, ...change }));
    setMoves([]);
  }, []);
  const taken = state?.taken;
  const take = useCallback(
    (move: TryMove) => {
      own.current.isMove = true;
      setMoves([...(taken ?? []), move]);
    },
    [taken],
  );
  const back = useCallback(() => {
    own.current.isMove = true;
    setMoves((taken ?? []).slice(0, -1));
  }, [taken]);

  return {
    setup,
    isReading,
    moved,
    begin,
    take,
    back,
    ...(offer && !errors && { offer }),
    ...(errors && { errors }),
    ...(failed !== undefined && { failed }),
    ...(state && !errors && { state }),
  };
}
