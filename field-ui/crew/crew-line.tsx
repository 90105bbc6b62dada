import { useCallback, useState } from 'react';
import { useField } from '../frame/field-context.ts';
import { useLive } from '../frame/use-live.ts';
import { momentWords } from '../start/moment-words.ts';
import { CrewSheet } from './crew-sheet.tsx';
import { memberWords, sendingWords } from './crew-words.ts';
import { countUnsent } from './unsent.ts';
import { useCrew } from './use-crew.ts';
import './crew.css';

/** Who this device is in the crew, and whether everything has been sent: two lines that keep their height whatever they say. */
export function CrewLine() {
  const { db } = useField();
  const { membership, sync } = useCrew();
  const unsent = useLive(useCallback(() => countUnsent(db), [db]));
  const [open, setOpen] = useState(false);
  const close = useCallback(() => setOpen(false), []);
  if (!membership) return null;
  const counted = unsent.status === 'ready' ? unsent.value : undefined;
  const words = sendingWords(sync, counted, (iso) => momentWords(iso, new Date()).replace(/^today /, ''));
  return (
    <>
      <button type="button" className="crew-line" aria-haspopup="dialog" onClick={() => setOpen(true)}>
        <span className="crew-line-who">
          {sync.code === 'outside' ? 'Was in' : 'In'} the crew as {memberWords(membership)}
        </span>
        <span className="crew-line-state">{words}</span>
        <span className="crew-line-go">Crew</span>
      </button>
      {open && <CrewSheet membership={membership} words={words} onClose={close} />}
    </>
  );
}
