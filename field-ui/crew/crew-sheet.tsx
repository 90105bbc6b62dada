import { useCallback, useState } from 'react';
import type { SyncProblem } from '../../shared/sync/crew-sync.ts';
import { useField } from '../frame/field-context.ts';
import { Sheet } from '../frame/sheet.tsx';
import { TroubleNotice } from '../frame/trouble.tsx';
import { useLive } from '../frame/use-live.ts';
import { hrefOf } from '../frame/use-route.ts';
import type { StoredMembership } from '../storage/field-db.ts';
import { hinderedWords, leaveProblemWords, memberWords, walkNoteWords } from './crew-words.ts';
import { useCrew } from './use-crew.ts';

type CrewSheetProps = { readonly membership: StoredMembership; readonly words: string; readonly onClose: () => void };

/** How sending stands and why, what the hub has said about calls, and the way out of the crew. */
export function CrewSheet({ membership, words, onClose }: CrewSheetProps) {
  const { crew } = useField();
  const { sync } = useCrew();
  const hindered = hinderedWords(sync);
  return (
    <Sheet title="The crew" onClose={onClose}>
      <p>
        This device, “{membership.device.label}”, {sync.code === 'outside' ? 'was' : 'is'} in the crew as {memberWords(membership)}.
      </p>
      <p>
        <strong>{words}.</strong>
      </p>
      {hindered && (
        <div className="crew-hindered">
          <p>{hindered.happened}</p>
          <p>{hindered.safe}</p>
          <p>{hindered.todo}</p>
        </div>
      )}
      <WalkNotes />
      {sync.code === 'outside' ? (
        <a className="button button-wide" href={hrefOf({ screen: 'join' })}>
          Join again
        </a>
      ) : (
        <button type="button" className="button button-wide" disabled={sync.code === 'working'} onClick={crew.nudge}>
          {sync.code === 'working' ? 'Sending…' : 'Try now'}
        </button>
      )}
      <LeaveCrew onLeft={onClose} />
    </Sheet>
  );
}

/** What the hub has said about single calls. */
function WalkNotes() {
  const { db } = useField();
  const noted = useLive(
    useCallback(async () => {
      const marked = await db.sync.filter(({ notes }) => notes.length > 0).toArray();
      const walks = await db.walks.bulkGet(marked.map(({ walk }) => walk));
      return marked.map(({ walk, notes }, at) => ({ walk, notes, title: walks[at]?.site ?? walks[at]?.title ?? walk }));
    }, [db]),
  );
  if (noted.status !== 'ready' || noted.value.length === 0) return null;
  return (
    <section aria-label="Calls to look at">
      <h3>Calls to look at</h3>
      <ul className="crew-notes">
        {noted.value.map(({ walk, notes, title }) => (
          <li key={walk}>
            <a href={hrefOf({ screen: 'report', walk })}>{title}</a>
            {notes.map((note) => (
              <p key={JSON.stringify(note)}>{walkNoteWords(note)}</p>
            ))}
          </li>
        ))}
      </ul>
    </section>
  );
}

function LeaveCrew({ onLeft }: { readonly onLeft: () => void }) {
  const { crew } = useField();
  const [step, setStep] = useState<'closed' | 'asking' | 'leaving'>('closed');
  const [problem, setProblem] = useState<SyncProblem>();
  const leave = async (): Promise<void> => {
    setStep('leaving');
    const left = await crew.leave();
    if (left.ok) {
      onLeft();
      return;
    }
    setProblem(left.problem);
    setStep('asking');
  };
  if (step === 'closed') {
    return (
      <button type="button" className="button button-line button-wide" onClick={() => setStep('asking')}>
        Leave the crew…
      </button>
    );
  }
  return (
    <div className="crew-leave">
      <p>
        Calls stay on this device, and what was sent stays on the hub. What has not been sent is sent only if you join again. The crew’s own trees
        leave the list; open calls keep theirs.
      </p>
      {problem && <TroubleNotice {...leaveProblemWords(problem)} />}
      <div className="crew-leave-actions">
        <button type="button" className="button button-line" onClick={() => setStep('closed')}>
          Stay
        </button>
        <button type="button" className="button" disabled={step === 'leaving'} onClick={() => void leave()}>
          {step === 'leaving' ? 'Leaving…' : 'Leave'}
        </button>
      </div>
    </div>
  );
}
