import { createContext, useContext, useSyncExternalStore } from 'react';
import type { DrillSession, DrillState } from './drill-session.ts';

export const DrillContext = createContext<DrillSession | undefined>(undefined);

/** The drill on the screen, and what can be done with it. */
export function useDrill(): DrillState & Pick<DrillSession, 'send' | 'forgetTrouble'> {
  const session = useContext(DrillContext);
  if (!session) throw new Error('A screen of a drill stands outside its drill.');
  return { ...useSyncExternalStore(session.subscribe, session.state), send: session.send, forgetTrouble: session.forgetTrouble };
}
