import { type StorageProblem, storageProblem } from '../storage/storage-problem.ts';
import type { HeldWalk } from './walk-lock.ts';

/** Holds something for this tab alone; undefined where another tab has it. It is let go when the page leaves it. */
export type Hold = (id: string) => Promise<HeldWalk | undefined>;

/** Reads something stored. `left`: the page has left it, and nothing may be written to it from here any more. */
export type Opening<Open> = (hold: Hold, left: AbortSignal) => Promise<Open>;

export type NotReadable = { readonly status: 'not-readable'; readonly problem: StorageProblem };

/** Opens something and shows what came of it, unless it was left meanwhile. Answers with how to leave it: what is held, or will be, is let go. */
export function startOpening<Open>(opening: Opening<Open>, hold: Hold, show: (open: Open | NotReadable) => void): () => void {
  const left = new AbortController();
  let release = (): void => undefined;
  const holding: Hold = async (id) => {
    const held = await hold(id);
    if (left.signal.aborted) {
      held?.release();
      return undefined;
    }
    if (held) release = held.release;
    return held;
  };
  opening(holding, left.signal).then(
    (open) => {
      if (!left.signal.aborted) show(open);
    },
    (error: unknown) => {
      // What cannot be opened here, such as an edition that this version of the app cannot work out, is not kept from another tab.
      release();
      if (!left.signal.aborted) show({ status: 'not-readable', problem: storageProblem(error) });
    },
  );
  return () => {
    left.abort();
    release();
  };
}
