import { createContext, useContext, useEffect, useMemo, useSyncExternalStore } from 'react';
import { useSession } from '../walk/use-session.ts';
import { SuspectsAside, type SuspectsNow } from './suspects-aside.ts';

export const SuspectsContext = createContext<SuspectsAside | undefined>(undefined);

/** The suspects of the walk on the screen, asked for again after every entry, so that they are there when the sheet is opened. */
export function useSuspectsAside(): SuspectsAside {
  const { walk, lines } = useSession();
  const { edition } = walk.edition.compiled;
  const { id } = walk;
  const aside = useMemo(() => new SuspectsAside(edition, id), [edition, id]);
  useEffect(() => aside.end, [aside]);
  useEffect(() => aside.read(lines), [aside, lines]);
  return aside;
}

export function useSuspects(): SuspectsNow & Pick<SuspectsAside, 'again'> {
  const aside = useContext(SuspectsContext);
  if (!aside) throw new Error('A screen of suspects stands outside a walk.');
  const now = useSyncExternalStore(aside.subscribe, aside.now);
  return { ...now, again: aside.again };
}
