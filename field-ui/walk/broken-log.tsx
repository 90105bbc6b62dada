import { type LogProblem, logProblemWords } from '../../engine/walk/index.ts';
import { counted } from '../../shared/ui/words/plain-words.ts';
import { saveFile } from '../device/save-file.ts';
import { PageMessage } from '../frame/page-message.tsx';
import { logFileName, logFileText } from '../log/log-file.ts';
import { PathList } from '../sheets/path-list.tsx';
import type { SessionState } from './walk-session.ts';

/** A walk whose stored log cannot be trusted to its end: where, what is kept, and the way to save it. */
export function BrokenLog({ state, problem }: { readonly state: SessionState; readonly problem: LogProblem }) {
  const { message, fix } = logProblemWords(problem);
  const { walk, view, lines } = state;
  const id = lines[0]?.walk ?? walk.id;
  return (
    <PageMessage
      title="The log of this call is damaged"
      actions={
        <button type="button" className="button" onClick={() => saveFile(logFileName(id), 'application/jsonl', logFileText(state.stored ?? lines))}>
          Save the log as a file
        </button>
      }
    >
      <p role="alert">{message}</p>
      <p>{fix}</p>
      <p>
        {counted(walk.length, 'entry', 'entries')} can be trusted, {counted(lines.length, 'entry', 'entries')} can be read. The call takes no more
        entries on this device. Save the log, tell the trainer, and open a new call for the work that is left.
      </p>
      {view.putBack.length > 0 && <p>By the entries that can be trusted, {counted(view.putBack.length, 'thing')} had not been put back.</p>}
      <PathList path={view.path} steps={walk.edition.compiled.steps} />
    </PageMessage>
  );
}
