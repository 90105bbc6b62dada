import { useRef, useState } from 'react';
import { freePath, isChanged, treeOfPath } from '../store/desk-file.ts';
import { useFolder } from '../store/desk-root.tsx';
import { exportFile } from '../store/export-file.ts';
import { useDeskFiles, useDeskStore } from '../store/use-desk-store.ts';
import { RenameForm } from './rename-form.tsx';

/** What can be done with one file of the shelf. */
export function FileMenu({ path, title }: { readonly path: string; readonly title: string }) {
  const store = useDeskStore();
  const files = useDeskFiles();
  const folder = useFolder();
  const menu = useRef<HTMLDetailsElement>(null);
  const [isRenaming, setRenaming] = useState(false);
  const file = files.get(path);
  if (!file) return null;
  const run = (action: () => void) => () => {
    action();
    if (menu.current) menu.current.open = false;
  };
  const duplicate = (): void => {
    const copy = freePath(path, (other) => files.has(other));
    // A copy is told from its pattern by its title too, where it is a tree whose title can be seen.
    const text =
      treeOfPath(path) === undefined
        ? file.text
        : file.text.replace(/^title: ?(["']?)(.+?)\1$/m, (_, quote, named) => `title: ${quote}${named}, copy${quote}`);
    store.write(copy, text, `Duplicate “${title}”`);
  };
  return (
    <details
      className="file-menu"
      ref={menu}
      onToggle={(event) => event.currentTarget.open || setRenaming(false)}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && menu.current?.open) {
          menu.current.open = false;
          setRenaming(false);
          menu.current.querySelector('summary')?.focus();
        }
      }}
      onBlur={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget) && event.relatedTarget !== null && menu.current) menu.current.open = false;
      }}
    >
      <summary className="button button-quiet" aria-label={`More for ${title}`}>
        More
      </summary>
      {isRenaming && (
        <div className="file-menu-list file-menu-form">
          <RenameForm path={path} title={title} close={run(() => setRenaming(false))} />
        </div>
      )}
      <div className="file-menu-list" hidden={isRenaming}>
        <button type="button" onClick={run(duplicate)}>
          Duplicate
        </button>
        <button type="button" onClick={() => setRenaming(true)}>
          Rename the file
        </button>
        <button type="button" onClick={run(() => void exportFile(file))}>
          Export
        </button>
        {!folder && file.base !== undefined && isChanged(file) && (
          <button type="button" onClick={run(() => store.write(path, file.base ?? file.text, `Discard the changes to “${title}”`))}>
            Discard my changes
          </button>
        )}
        <button type="button" onClick={run(() => store.remove(path, `Remove “${title}”`))}>
          Remove
        </button>
      </div>
    </details>
  );
}

/** Whether a file of the shelf is as the service has it; nothing where it is. */
export function LocalState({ path }: { readonly path: string }) {
  const file = useDeskFiles().get(path);
  const folder = useFolder();
  if (!file || !isChanged(file)) return null;
  if (folder) return <span className="local-state">not in the folder yet</span>;
  return <span className="local-state">{file.base === undefined ? 'only in this browser' : 'changed in this browser'}</span>;
}
