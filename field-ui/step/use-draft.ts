import { useContext, useEffect, useMemo, useState } from 'react';
import { useField } from '../frame/field-context.ts';
import { SessionContext, useSession } from '../walk/use-session.ts';
import type { SessionState } from '../walk/walk-session.ts';
import { DraftKeeper } from './draft-keeper.ts';

/** What is typed on the open step and not entered yet. It is kept beside the walk, so that a phone that dies brings it back. */
export function useDraft(): readonly [string, (text: string) => void] {
  const { store } = useField();
  const { walk, view } = useSession();
  const at = placeOf({ walk, view });
  const [draft, setDraft] = useState({ at, text: '', touched: false });
  const here = draft.at === at ? draft : { at, text: '', touched: false };

  useEffect(() => {
    let left = false;
    void store.draft(walk.id).then((kept) => {
      if (!left && kept?.at === at) setDraft((now) => (now.at === at && now.touched ? now : { at, text: kept.text, touched: true }));
    });
    return () => {
      left = true;
    };
  }, [store, walk.id, at]);

  const keeper = useMemo(() => new DraftKeeper(store.keepDraft), [store]);
  const session = useContext(SessionContext);
  useEffect(() => {
    if (here.touched) keeper.type({ walk: walk.id, at, text: here.text });
    else keeper.forget();
  }, [keeper, walk.id, at, here.text, here.touched]);
  useEffect(
    () => () => {
      const now = session?.state();
      // What is being entered is no draft any more.
      keeper.leave(now && !now.writing ? placeOf(now) : undefined);
    },
    [keeper, session],
  );

  return [here.text, (text) => setDraft({ at, text, touched: true })];
}

const placeOf = ({ walk, view }: Pick<SessionState, 'walk' | 'view'>): string =>
  `${walk.snapshot.context.at} ${view.path.length}${view.phase === 'recheck' ? ' recheck' : ''}`;
