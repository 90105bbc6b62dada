import { useDeskPlace, useFolder } from '../store/desk-root.tsx';
import { exportFiles } from '../store/export-file.ts';
import { folderStateWords, folderTroubleWords } from '../store/folder/folder-words.ts';
import { useDeskFiles } from '../store/use-desk-store.ts';
import { FolderConflicts } from './folder-conflicts.tsx';

/** In the head of every page: which folder is worked in, and how it stands. Nothing where the files are in this browser. */
export function FolderMark() {
  const open = useFolder();
  if (!open) return null;
  const { state, waiting, conflicts } = open.now;
  return (
    <p className="folder-mark" role="status" data-at={state.at} title={`Work goes straight into the files of “${open.folder.name}”`}>
      <svg viewBox="0 0 16 16" width="14" height="14" aria-hidden="true">
        <path d="M1 13V3h5l1.5 2H15v8z" fill="none" stroke="currentColor" strokeWidth="1.5" strokeLinejoin="round" />
      </svg>{' '}
      <span className="unseen">Folder </span>
      <strong>{open.folder.name}</strong> <span>{folderStateWords({ state, waiting: waiting.length, conflicts: conflicts.length })}</span>
    </p>
  );
}

/** What must be decided about the folder wherever one is on the desk: leave to use it, why it cannot be used, and files changed twice. */
export function FolderBanners() {
  const { places } = useDeskPlace();
  const files = useDeskFiles();
  const open = useFolder();
  if (!open) return null;
  const { state, waiting, conflicts } = open.now;
  const { sync, name } = open.folder;
  const unwritten = waiting.flatMap((path) => files.get(path) ?? []);
  return (
    <div className="desk-banners">
      {(state.at === 'ask' || state.at === 'stopped') && (
        <div className={state.at === 'stopped' ? 'desk-banner desk-banner-failed' : 'desk-banner'} role="alert">
          <p>{folderTroubleWords(state, name, waiting.length)}</p>
          {state.at === 'ask' ? (
            <button type="button" className="button" onClick={() => void sync.allow()}>
              Allow the folder
            </button>
          ) : (
            <button type="button" className="button" onClick={() => void sync.again()}>
              Try again
            </button>
          )}
          {unwritten.length > 0 && (
            <button type="button" className="button button-quiet" onClick={() => exportFiles(unwritten)}>
              Export what is not written
            </button>
          )}
          <button type="button" className="button button-quiet" onClick={() => void places.closeFolder()}>
            Close the folder
          </button>
        </div>
      )}
      {state.at === 'ready' && conflicts.length > 0 && <FolderConflicts conflicts={conflicts} sync={sync} />}
    </div>
  );
}
