import { useState } from 'react';
import { Prose } from '../../shared/ui/prose.tsx';
import { Sheet } from '../frame/sheet.tsx';
import { useArrival } from '../frame/use-arrival.ts';
import { StandingCautions } from '../step/cautions.tsx';
import { TroubleOfWalk } from '../walk/trouble-of-walk.tsx';
import { useSession } from '../walk/use-session.ts';
import { WalkPage } from '../walk/walk-page.tsx';
import { RitualSteps } from './ritual-steps.tsx';
import { SettingSwitches } from './setting-switches.tsx';
import './ritual.css';

/** The repair, and whether it is done. */
export function RepairScreen() {
  const { view, walk, send, writing } = useSession();
  const heading = useArrival('repair');
  const [asking, setAsking] = useState<'done' | 'not-done'>();
  const { finding } = view;
  return (
    <WalkPage
      dock={
        <div className="dock-row">
          <button type="button" className="button button-line" disabled={writing} onClick={() => setAsking('not-done')}>
            Not today
          </button>
          <button type="button" className="button button-main" disabled={writing} onClick={() => setAsking('done')}>
            Repaired
          </button>
        </div>
      }
    >
      <StandingCautions folded={false} />
      <RitualSteps now="repair" />
      <div className="step-head">
        <p className="kicker">Repair</p>
        <h1 ref={heading} tabIndex={-1}>
          {finding?.title ?? view.step?.title}
        </h1>
      </div>
      {finding && <Prose prose={finding.repair} figures={walk.edition.compiled.edition.figures} />}
      <SettingSwitches />
      {asking && <RepairedSheet done={asking === 'done'} send={send} onClose={() => setAsking(undefined)} />}
    </WalkPage>
  );
}

type RepairedSheetProps = { readonly done: boolean; readonly send: ReturnType<typeof useSession>['send']; readonly onClose: () => void };

function RepairedSheet({ done, send, onClose }: RepairedSheetProps) {
  const { writing } = useSession();
  const [note, setNote] = useState('');
  const tell = async (): Promise<void> => {
    if (await send({ type: 'repaired', done, ...(note.trim() !== '' && { note: note.trim() }) })) onClose();
  };
  return (
    <Sheet title={done ? 'What was done' : 'Why not today'} onClose={onClose}>
      <label className="field">
        <span>{done ? 'For the report, if there is something to say' : 'For the report, such as: part ordered'}</span>
        <textarea value={note} maxLength={500} rows={3} onChange={(event) => setNote(event.target.value)} />
      </label>
      <p className="section-note">
        {done ? 'Next: everything temporary back, then the complaint is tried again.' : 'Next: everything temporary back.'}
      </p>
      <TroubleOfWalk />
      <button type="button" className="button button-main button-wide" disabled={writing} onClick={() => void tell()}>
        {done ? 'It is repaired' : 'It is not repaired'}
      </button>
    </Sheet>
  );
}
