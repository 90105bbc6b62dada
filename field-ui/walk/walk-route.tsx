import { useSyncExternalStore } from 'react';
import { saveFile } from '../device/save-file.ts';
import { PageMessage } from '../frame/page-message.tsx';
import { logFileName, logFileText } from '../log/log-file.ts';
import { storageWords } from '../storage/storage-words.ts';
import { BrokenLog } from './broken-log.tsx';
import { type OpenWalk, useOpenWalk } from './use-open-walk.ts';
import { SessionContext } from './use-session.ts';
import { WalkScreen } from './walk-screen.tsx';
import type { WalkSession } from './walk-session.ts';

/** A walk by its id, or why it cannot be shown. */
export function WalkRoute({ walk }: { readonly walk: string }) {
  const { open, again } = useOpenWalk(walk, true);
  if (open.status === 'open') return <OpenedWalk session={open.session} again={again} />;
  return <WalkNotOpen walk={walk} open={open} again={again} />;
}

function OpenedWalk({ session, again }: { readonly session: WalkSession; readonly again: (takeOver: boolean) => void }) {
  const state = useSyncExternalStore(session.subscribe, session.state);
  if (state.away) {
    return (
      <PageMessage
        title="This call has been taken over in another tab"
        actions={
          <button type="button" className="button" onClick={() => again(true)}>
            Take it back here
          </button>
        }
      >
        <p>Everything that was entered here is safe. Go on in the other tab or window.</p>
      </PageMessage>
    );
  }
  if (state.broken) return <BrokenLog state={state} problem={state.broken} />;
  return (
    <SessionContext value={session}>
      <WalkScreen reload={() => again(true)} />
    </SessionContext>
  );
}

type NotOpenProps = { readonly walk: string; readonly open: Exclude<OpenWalk, { status: 'open' }>; readonly again: (takeOver: boolean) => void };

export function WalkNotOpen({ walk, open, again }: NotOpenProps) {
  switch (open.status) {
    case 'loading':
      return <main className="page" aria-busy="true" />;
    case 'missing':
      return (
        <PageMessage title="This call is not on the device">
          <p>No entry of it is stored here. If it was saved as a file, open the file from the start screen.</p>
        </PageMessage>
      );
    case 'held-elsewhere':
      return (
        <PageMessage
          title="This call is open in another tab or window"
          actions={
            <button type="button" className="button" onClick={() => again(true)}>
              Go on here instead
            </button>
          }
        >
          <p>So that no entry is made twice, a call can be worked in one place at a time. Nothing is lost either way.</p>
        </PageMessage>
      );
    case 'edition-missing':
      return (
        <PageMessage
          title="The edition of this call is not on the device"
          actions={
            <button type="button" className="button" onClick={() => saveFile(logFileName(walk), 'application/jsonl', logFileText(open.lines))}>
              Save the log as a file
            </button>
          }
        >
          <p>The call is safe: {open.lines.length} entries are stored. It can be shown only with the edition it was walked on.</p>
          <p>Go to the start with a signal once, so that the crew’s trees are fetched, and open the call again.</p>
        </PageMessage>
      );
    case 'not-readable': {
      const { happened, todo } = storageWords(open.problem);
      return (
        <PageMessage
          title="The call could not be read"
          actions={
            <button type="button" className="button" onClick={() => again(false)}>
              Try again
            </button>
          }
        >
          <p>{happened}</p>
          <p>What was entered stays stored. {todo}</p>
        </PageMessage>
      );
    }
  }
}
