import { useEffect, useMemo, useRef, useState } from 'react';
import type { Problem } from '../../engine/problem.ts';
import type { Tree, TreePlaces } from '../../engine/tree/index.ts';
import type { CheckAnswer, CheckRequest } from '../data/check-message.ts';
import type { CheckedTree } from '../data/tree-checker.ts';
import { treePath } from './desk-file.ts';
import { sourcesOf } from './sources-of.ts';
import { useDeskFiles } from './use-desk-store.ts';

export type CheckedTreeNow = {
  /** Absent where the text has errors of form, and until it was read for the first time. */
  readonly tree?: Tree;
  readonly places?: TreePlaces;
  /** Of the text that was read last: of its form first, of its paths a moment later. */
  readonly problems: readonly Problem[];
  /** True while what is shown is not yet about the latest text with all its paths. */
  readonly checking: boolean;
  /** All that was read last, with the text that it is about. */
  readonly checked?: CheckedTree;
  /** Why nothing can be checked, where the part of the desk that does it did not start. */
  readonly failed?: string;
};

/** Typing that goes on faster than this is checked together. */
const PAUSE = 120;

/** Reads and checks a tree of the desk in a worker, again whenever it or anything it names changes. */
export function useCheckedTree(name: string): CheckedTreeNow {
  const files = useDeskFiles();
  const text = files.get(treePath(name))?.text;
  const worker = useRef<Worker>(undefined);
  const latest = useRef(0);
  const [checked, setChecked] = useState<CheckedTree>();
  const [paths, setPaths] = useState<{ readonly of: CheckedTree; readonly problems: readonly Problem[] }>();
  const [failed, setFailed] = useState<string>();

  useEffect(() => {
    const started = new Worker(new URL('../data/check-worker.ts', import.meta.url), { type: 'module', name: 'check' });
    worker.current = started;
    let read: CheckedTree | undefined;
    started.addEventListener('message', ({ data }: MessageEvent<CheckAnswer>) => {
      if (data.request !== latest.current) return;
      if (data.stage === 'read') {
        read = data.checked;
        setChecked(data.checked);
      } else if (read) setPaths({ of: read, problems: data.problems });
    });
    started.addEventListener('error', (event) => setFailed(event.message || 'The part of the desk that checks trees did not start.'));
    return () => {
      started.terminate();
      worker.current = undefined;
    };
  }, []);

  useEffect(() => {
    if (!files.has(treePath(name))) return;
    latest.current += 1;
    const message: CheckRequest = { request: latest.current, name, sources: sourcesOf(files, []) };
    const waiting = setTimeout(() => worker.current?.postMessage(message), latest.current === 1 ? 0 : PAUSE);
    return () => clearTimeout(waiting);
  }, [files, name]);

  return useMemo(() => {
    const ofPaths = checked !== undefined && paths?.of === checked ? paths.problems : [];
    const isNow = checked?.text === text && paths?.of === checked;
    const shown = {
      problems: [...(checked?.problems ?? []), ...ofPaths],
      checking: !isNow && failed === undefined,
      ...(failed !== undefined && { failed }),
    };
    if (!checked) return shown;
    return { ...shown, checked, places: checked.places, ...(checked.tree && { tree: checked.tree }) };
  }, [checked, paths, text, failed]);
}
