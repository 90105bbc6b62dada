import { refusalWords } from '../../engine/walk/index.ts';
import { saveFile } from '../device/save-file.ts';
import { TroubleNotice } from '../frame/trouble.tsx';
import { logFileName, logFileText } from '../log/log-file.ts';
import { storageWords } from '../storage/storage-words.ts';
import { useSession } from './use-session.ts';
import { useWalkControls } from './walk-controls.ts';

/** Why the last press did not count. */
export function TroubleOfWalk() {
  const { trouble, forgetTrouble, walk, lines } = useSession();
  const { reload } = useWalkControls();
  if (!trouble) return null;
  if (trouble.kind === 'refused') {
    const { message, fix } = refusalWords(trouble.refusal);
    // What was typed goes away with the next key; anything else with a press.
    const typed = trouble.refusal.code === 'not-readable';
    return <TroubleNotice happened={message} todo={fix} onDismiss={typed ? undefined : forgetTrouble} />;
  }
  return (
    <TroubleNotice {...storageWords(trouble.problem)} onDismiss={forgetTrouble}>
      {trouble.problem.code === 'written-elsewhere' ? (
        <button type="button" className="button button-line" onClick={reload}>
          Load it again
        </button>
      ) : (
        <button type="button" className="button button-line" onClick={() => saveFile(logFileName(walk.id), 'application/jsonl', logFileText(lines))}>
          Save the log
        </button>
      )}
    </TroubleNotice>
  );
}
