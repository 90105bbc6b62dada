import { useRef } from 'react';
import type { DrillTask } from '../../engine/review/index.ts';
import type { WalkableEdition } from '../../engine/walk/index.ts';
import { useLeft } from '../frame/use-left.ts';
import { go } from '../frame/use-route.ts';
import { storageErrorWords } from '../storage/storage-words.ts';
import { startDrill } from './start-drill.ts';
import { useDrillStore } from './use-drill-store.ts';

type BeginDrill = {
  /** Begins a drill and goes to it, unless the screen was left meanwhile. */
  begin(edition: WalkableEdition, task: DrillTask, by: string): Promise<void>;
  /** One press at a time: a second tap on the same one would begin a second run. What the device refuses is said. */
  press(work: () => Promise<void>): Promise<void>;
};

/** Beginning a drill from a screen; why it was not begun is given to `say`. */
export function useBeginDrill(say: (words: string) => void): BeginDrill {
  const store = useDrillStore();
  const left = useLeft();
  const busy = useRef(false);
  return {
    begin: async (edition, task, by) => {
      const started = await startDrill(edition, task, store, by);
      if (!started.ok) say(started.problem);
      else if (!left.current) go({ screen: 'drill', run: started.value });
    },
    press: async (work) => {
      if (busy.current) return;
      busy.current = true;
      try {
        await work();
      } catch (error) {
        say(storageErrorWords(error));
      } finally {
        busy.current = false;
      }
    },
  };
}
