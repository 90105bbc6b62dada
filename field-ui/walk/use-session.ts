import { createContext, useContext, useSyncExternalStore } from 'react';
import type { SessionState, WalkSession } from './walk-session.ts';

export const SessionContext = createContext<WalkSession | undefined>(undefined);

/** The walk on the screen and the way to send it events. */
export function useSession(): SessionState & Pick<WalkSession, 'send' | 'forgetTrouble'> {
  const session = useContext(SessionContext);
  if (!session) throw new Error('A screen of a walk stands outside a walk.');
  const state = useSyncExternalStore(session.subscribe, session.state);
  return { ...state, send: session.send, forgetTrouble: session.forgetTrouble };
}
