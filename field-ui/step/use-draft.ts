import { useEffect, useState } from 'react';
import { useField } from '../frame/field-context.ts';
import { useSession } from '../walk/use-session.ts';

/** After this long without a key, what is typed is kept, ms. */
const KEEP_AFTER_MS = 200;

/** What is typed on the open step and not entered yet. It is kept beside the walk, so that a phone that dies brings it back. */
export function useDraft(): readonly [string, (text: string) => void] {
  const { store } = useField();
  const { walk, view } = useSession();
  const at = `${walk.snapshot.context.at} ${view.path.length}${view.phase === 'recheck' ? ' recheck' : ''}`;
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

  useEffect(() => {
    if (!here.touched) return;
    const keep = setTimeout(() => void store.keepDraft({ walk: walk.id, at, text: here.text }), KEEP_AFTER_MS);
    return () => clearTimeout(keep);
  }, [store, walk.id, at, here.text, here.touched]);

  return [here.text, (text) => setDraft({ at, text, touched: true })];
}
