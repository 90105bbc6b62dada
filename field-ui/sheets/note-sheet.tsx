import { useState } from 'react';
import { Sheet } from '../frame/sheet.tsx';
import { TroubleOfWalk } from '../walk/trouble-of-walk.tsx';
import { useSession } from '../walk/use-session.ts';

const LONGEST = 2000;

export function NoteSheet({ onClose }: { readonly onClose: () => void }) {
  const { view, send, writing } = useSession();
  const [text, setText] = useState('');
  const keep = async (): Promise<void> => {
    if (await send({ type: 'noted', text: text.trim() })) onClose();
  };
  return (
    <Sheet title="Note" onClose={onClose}>
      <label className="field">
        <span>Stands in the report as you write it</span>
        <textarea value={text} maxLength={LONGEST} rows={4} onChange={(event) => setText(event.target.value)} />
      </label>
      <TroubleOfWalk />
      <button type="button" className="button button-main button-wide" disabled={writing || text.trim() === ''} onClick={() => void keep()}>
        Keep the note
      </button>
      {view.notes.length > 0 && (
        <ul className="note-list">
          {view.notes.map((note, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: notes are only ever added.
            <li key={index}>{note}</li>
          ))}
        </ul>
      )}
    </Sheet>
  );
}
