import { useCallback } from 'react';
import { walkLineSchema } from '../../engine/walk/index.ts';
import { useField } from '../frame/field-context.ts';
import type { StorageProblem } from '../storage/storage-problem.ts';
import { stampNow } from './stamp.ts';
import type { Hold } from './start-opening.ts';
import { useOpening } from './use-opening.ts';
import { WalkSession } from './walk-session.ts';

export type OpenWalk =
  | { readonly status: 'loading' }
  | { readonly status: 'missing' }
  | { readonly status: 'held-elsewhere' }
  | { readonly status: 'edition-missing'; readonly lines: readonly unknown[] }
  | { readonly status: 'not-readable'; readonly problem: StorageProblem }
  | { readonly status: 'open'; readonly session: WalkSession };

/** Opens a stored walk where it stood. `hold`: this tab alone may write it. `again(true)` takes it over from another tab. */
export function useOpenWalk(walk: string, hold: boolean): { readonly open: OpenWalk; again(takeOver: boolean): void } {
  const { store, editions } = useField();
  const opening = useCallback(
    async (holding: Hold, left: AbortSignal): Promise<OpenWalk> => {
      const held = hold ? await holding(walk) : undefined;
      if (hold && !held) return { status: 'held-elsewhere' };
      const lines = await store.lines(walk);
      if (!lines.ok) return { status: 'not-readable', problem: lines.problem };
      if (lines.value.length === 0) return { status: 'missing' };
      const hash = lines.value.map((line) => walkLineSchema.safeParse(line)).find((line) => line.success)?.data?.edition;
      const edition = hash === undefined ? undefined : await editions.walkable(hash);
      if (!edition) return { status: 'edition-missing', lines: lines.value };
      const session = new WalkSession(edition, lines.value, { store, stamp: stampNow });
      void held?.taken.then(session.goAway);
      // A photo that is ready only then must not be written beside the tab, or the page, that has the call by now.
      left.addEventListener('abort', session.goAway);
      return { status: 'open', session };
    },
    [walk, hold, store, editions],
  );
  return useOpening(opening);
}
