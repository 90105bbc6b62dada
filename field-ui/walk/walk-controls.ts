import { createContext, useContext } from 'react';
import type { Speech } from '../device/use-speech.ts';

export type SheetName = 'path' | 'suspects' | 'put-back' | 'more' | 'facts' | 'note' | 'photo' | 'cannot' | 'cautions';

type Controls = {
  openSheet(sheet: SheetName): void;
  /** Reads the walk again from storage. */
  reload(): void;
  readonly speech: Speech | undefined;
};

export const WalkControls = createContext<Controls | undefined>(undefined);

/** What the screens of a walk can do to the frame around them. */
export function useWalkControls(): Controls {
  const controls = useContext(WalkControls);
  if (!controls) throw new Error('A screen of a walk stands outside its frame.');
  return controls;
}
