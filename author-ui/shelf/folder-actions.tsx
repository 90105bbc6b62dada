import { useState } from 'react';
import { useDeskPlace, useFolder } from '../store/desk-root.tsx';
import type { FolderHandle } from '../store/folder/folder-files.ts';
import { unwrittenWords } from '../store/folder/folder-words.ts';

type Picker = (options: { readonly id: string; readonly mode: 'readwrite' }) => Promise<FolderHandle>;

/** Chromium's way to a folder; undefined in a browser without it. */
const folderPicker = (): Picker | undefined => (window as { showDirectoryPicker?: Picker }).showDirectoryPicker?.bind(window);

/** Opens a folder to work in, or closes the one that is open. Nothing where the browser cannot do it. */
export function FolderActions() {
  const { places } = useDeskPlace();
  const open = useFolder();
  const [asks, setAsks] = useState(false);
  const [wrong, setWrong] = useState<string>();
  const picker = folderPicker();
  if (!open && !picker) return null;
  if (!open) {
    const pick = async (): Promise<void> => {
      try {
        setWrong(undefined);
        const handle = await picker?.({ id: 'trees', mode: 'readwrite' });
        if (handle) await places.openFolder(handle);
      } catch (error) {
        // Closing the browser's own window without choosing is no trouble.
        if (error instanceof DOMException && error.name === 'AbortError') return;
        setWrong(
          `The folder could not be opened: ${error instanceof Error ? error.message : String(error)} Your files in this browser are as they were.`,
        );
      }
    };
    return (
      <>
        <button type="button" className="button button-quiet" onClick={pick}>
          Open a folder
        </button>
        {wrong !== undefined && (
          <span role="alert" className="field-problem">
            {wrong}
          </span>
        )}
      </>
    );
  }
  const { waiting } = open.now;
  const close = (): void => {
    if (waiting.length > 0 && !asks) setAsks(true);
    else void places.closeFolder();
  };
  return (
    <>
      <button type="button" className="button button-quiet" onClick={close}>
        {asks ? 'Close it all the same' : 'Close the folder'}
      </button>
      {asks && waiting.length > 0 && (
        <span role="alert" className="field-problem">
          {unwrittenWords(waiting.length, open.folder.name)}
        </span>
      )}
    </>
  );
}

/** What the shelf says of the folder that it shows. */
export function FolderNote() {
  const open = useFolder();
  if (!open) return null;
  const { leftAlone } = open.now;
  return (
    <div className="folder-note">
      <p>
        These are the files of the folder <strong>{open.folder.name}</strong>. Every change goes into its file; what other programs change there shows
        here.
      </p>
      {leftAlone.length > 0 && (
        <p>
          Left alone, since their names have more in them than small letters, digits and single hyphens:{' '}
          {leftAlone.map((path, index) => (
            <span key={path}>
              {index > 0 && ', '}
              <code>{path}</code>
            </span>
          ))}
        </p>
      )}
    </div>
  );
}
