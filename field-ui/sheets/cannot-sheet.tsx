import { useState } from 'react';
import { Sheet } from '../frame/sheet.tsx';
import { TroubleOfWalk } from '../walk/trouble-of-walk.tsx';
import { useSession } from '../walk/use-session.ts';

/** A step that cannot be done here: why, and where the tree goes on then. */
export function CannotSheet({ onClose }: { readonly onClose: () => void }) {
  const { walk, send, writing } = useSession();
  const [why, setWhy] = useState('');
  const { compiled } = walk.edition;
  const { at } = walk.snapshot.context;
  const target = at === undefined ? undefined : compiled.steps.get(at)?.cannot;
  const leadsTo = target === undefined ? undefined : compiled.steps.get(target)?.step.title;
  const tell = async (): Promise<void> => {
    if (await send({ type: 'could-not', ...(why.trim() !== '' && { why: why.trim() }) })) onClose();
  };
  return (
    <Sheet title="Why it cannot be done" onClose={onClose}>
      <label className="field">
        <span>For the log, if you like</span>
        <textarea value={why} maxLength={500} rows={2} onChange={(event) => setWhy(event.target.value)} />
      </label>
      <TroubleOfWalk />
      <button type="button" className="button button-main button-wide" disabled={writing} onClick={() => void tell()}>
        <span>Cannot be done</span>
        {leadsTo !== undefined && <span className="button-second">leads to {leadsTo}</span>}
      </button>
    </Sheet>
  );
}
