import { type FormEvent, useState } from 'react';
import { benchOfPath, treeOfPath } from '../store/desk-file.ts';
import { useDeskStore } from '../store/use-desk-store.ts';
import { renameFile, renameFileWords } from './rename-file.ts';

type RenameFormProps = { readonly path: string; readonly title: string; readonly close: () => void };

/** Asks for another name of a file and gives it, with everything that leads there, as one step of work. */
export function RenameForm({ path, title, close }: RenameFormProps) {
  const store = useDeskStore();
  const isTree = treeOfPath(path) !== undefined;
  const [name, setName] = useState(treeOfPath(path) ?? benchOfPath(path) ?? '');
  const [problem, setProblem] = useState<string>();
  const rename = (event: FormEvent): void => {
    event.preventDefault();
    const renamed = renameFile(store.files(), path, name);
    if (!renamed.ok) {
      setProblem(renameFileWords(renamed.problem));
      return;
    }
    store.apply(renamed.value.edits, `Rename the file of “${title}”`);
    close();
  };
  return (
    <form className="rename-form" aria-label={`Rename the file of ${title}`} onSubmit={rename}>
      <label>
        Name of the file
        <span>
          <input
            // biome-ignore lint/a11y/noAutofocus: the field came because it was asked for.
            autoFocus
            value={name}
            autoComplete="off"
            spellCheck={false}
            aria-invalid={problem !== undefined}
            onFocus={(event) => event.target.select()}
            onChange={(event) => setName(event.target.value)}
          />
          <code>{isTree ? '.tree.mdx' : '.bench.yaml'}</code>
        </span>
      </label>
      <p className="field-hint">
        {isTree
          ? 'Links from other trees follow. Editions that were published before stay under the old name.'
          : 'The trees that are checked against it follow.'}
      </p>
      {problem !== undefined && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
      <div className="rename-form-actions">
        <button type="submit" className="button">
          Rename
        </button>
        <button type="button" className="button button-quiet" onClick={close}>
          Cancel
        </button>
      </div>
    </form>
  );
}
