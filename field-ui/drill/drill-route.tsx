import { useState, useSyncExternalStore } from 'react';
import { recordProblemWords } from '../../engine/review/index.ts';
import { PageMessage } from '../frame/page-message.tsx';
import { storageWords } from '../storage/storage-words.ts';
import { DrillOpening } from './drill-opening.tsx';
import { DrillResultScreen } from './drill-result-screen.tsx';
import type { DrillSession } from './drill-session.ts';
import { FreeDrill } from './free-drill.tsx';
import { TreeDrill } from './tree-drill.tsx';
import { DrillContext } from './use-drill.ts';
import { type OpenDrill, useOpenDrill } from './use-open-drill.ts';
import './drill.css';

/** A drill by the id of its run, or why it cannot be shown. */
export function DrillRoute({ run }: { readonly run: string }) {
  const { open, again } = useOpenDrill(run);
  if (open.status === 'open')
    return (
      <DrillContext value={open.session}>
        <OpenedDrill session={open.session} again={again} />
      </DrillContext>
    );
  return <DrillNotOpen open={open} again={again} />;
}

function OpenedDrill({ session, again }: { readonly session: DrillSession; readonly again: (takeOver: boolean) => void }) {
  const { run, away, broken } = useSyncExternalStore(session.subscribe, session.state);
  const [met, setMet] = useState(run.record.lines.length > 0);
  if (away) return <HeldElsewhere again={again} />;
  if (broken) return <NotPlayable words={recordProblemWords(broken)} />;
  if (run.end) return <DrillResultScreen />;
  if (run.walk) return <TreeDrill session={session} reload={() => again(true)} />;
  return met ? <FreeDrill /> : <DrillOpening onBegin={() => setMet(true)} />;
}

type NotOpenProps = { readonly open: Exclude<OpenDrill, { status: 'open' }>; readonly again: (takeOver: boolean) => void };

function DrillNotOpen({ open, again }: NotOpenProps) {
  switch (open.status) {
    case 'loading':
      return <main className="page" aria-busy="true" />;
    case 'missing':
      return (
        <PageMessage title="This drill is not on the device">
          <p>Nothing of it is stored here. Begin it again from the drills.</p>
        </PageMessage>
      );
    case 'held-elsewhere':
      return <HeldElsewhere again={again} />;
    case 'edition-missing':
      return (
        <PageMessage title="The tree of this drill is not on the device">
          <p>What was done so far is safe. Open it with a signal once, so that its tree is fetched.</p>
        </PageMessage>
      );
    case 'not-playable':
      return <NotPlayable words={recordProblemWords(open.problem)} />;
    case 'not-readable': {
      const { happened, todo } = storageWords(open.problem);
      return (
        <PageMessage
          title="The drill could not be read"
          actions={
            <button type="button" className="button" onClick={() => again(false)}>
              Try again
            </button>
          }
        >
          <p>
            {happened} {todo}
          </p>
        </PageMessage>
      );
    }
  }
}

function HeldElsewhere({ again }: { readonly again: (takeOver: boolean) => void }) {
  return (
    <PageMessage
      title="This drill is open in another tab or window"
      actions={
        <button type="button" className="button" onClick={() => again(true)}>
          Go on here instead
        </button>
      }
    >
      <p>A drill can be done in one place at a time. Nothing is lost either way.</p>
    </PageMessage>
  );
}

function NotPlayable({ words }: { readonly words: { readonly message: string; readonly fix: string } }) {
  return (
    <PageMessage title="This drill cannot be shown">
      <p>{words.message}</p>
      <p>{words.fix}</p>
    </PageMessage>
  );
}
