import { useCallback } from 'react';
import { type DrillRecord, type RecordProblem, readDrillRecord } from '../../engine/review/index.ts';
import { editionAtAddress } from '../editions/edition-at-address.ts';
import { useField } from '../frame/field-context.ts';
import type { StorageProblem } from '../storage/storage-problem.ts';
import { stampNow } from '../walk/stamp.ts';
import type { Hold } from '../walk/start-opening.ts';
import { useOpening } from '../walk/use-opening.ts';
import { DrillSession } from './drill-session.ts';
import { useDrillStore } from './use-drill-store.ts';

export type OpenDrill =
  | { readonly status: 'loading' }
  | { readonly status: 'missing' }
  | { readonly status: 'held-elsewhere' }
  | { readonly status: 'edition-missing' }
  | { readonly status: 'not-readable'; readonly problem: StorageProblem }
  | { readonly status: 'not-playable'; readonly problem: RecordProblem; readonly record?: DrillRecord }
  | { readonly status: 'open'; readonly session: DrillSession };

/** Opens a stored drill where it stood, for this tab alone. `again(true)` takes it over from another tab. */
export function useOpenDrill(id: string): { readonly open: OpenDrill; again(takeOver: boolean): void } {
  const field = useField();
  const store = useDrillStore();
  const opening = useCallback(
    async (hold: Hold, left: AbortSignal): Promise<OpenDrill> => {
      const held = await hold(id);
      if (!held) return { status: 'held-elsewhere' };
      const stored = await store.record(id);
      if (!stored.ok) return { status: 'not-readable', problem: stored.problem };
      if (stored.value === undefined) return { status: 'missing' };
      const record = readDrillRecord(stored.value);
      if (!record.ok) return { status: 'not-playable', problem: record.problem };
      const edition = await editionAtAddress(record.value.task.edition, field, (path, init) => fetch(path, init), left);
      if (!edition) return { status: 'edition-missing' };
      const session = DrillSession.open(edition, record.value, { store, stamp: stampNow });
      if (!session.ok) return { status: 'not-playable', problem: session.problem, record: record.value };
      void held.taken.then(session.value.goAway);
      left.addEventListener('abort', session.value.goAway);
      return { status: 'open', session: session.value };
    },
    [id, field, store],
  );
  return useOpening(opening);
}
