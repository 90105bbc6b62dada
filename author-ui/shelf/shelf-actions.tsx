import { type FormEvent, useRef, useState } from 'react';
import { stepId } from '../../engine/tree/index.ts';
import { editAddress } from '../desk-route.ts';
import { blankTreeText } from '../edit/blank-tree.ts';
import { treePath } from '../store/desk-file.ts';
import { useDeskSnapshot, useDeskStore } from '../store/use-desk-store.ts';
import { FolderActions } from './folder-actions.tsx';
import { type ImportOutcome, importWords } from './import-files.ts';
import { NewTreeFromBench } from './new-tree-from-bench.tsx';

type ShelfActionsProps = {
  readonly importFiles: (files: readonly File[]) => void;
  readonly outcomes: readonly ImportOutcome[];
  readonly forget: () => void;
};

/** What can be done on the shelf: begin a tree, bring files in, take back what was done. */
export function ShelfActions({ importFiles, outcomes, forget }: ShelfActionsProps) {
  const store = useDeskStore();
  const { canUndo, canRedo } = useDeskSnapshot();
  const [making, setMaking] = useState<'empty' | 'drafted'>();
  const toggle = (what: 'empty' | 'drafted') => () => setMaking(making === what ? undefined : what);
  const close = (): void => setMaking(undefined);
  const picker = useRef<HTMLInputElement>(null);
  return (
    <div className="shelf-actions">
      <div className="shelf-actions-row">
        <button type="button" className="button" aria-expanded={making === 'empty'} onClick={toggle('empty')}>
          New tree
        </button>
        <button type="button" className="button button-quiet" aria-expanded={making === 'drafted'} onClick={toggle('drafted')}>
          New tree from a bench
        </button>
        <button type="button" className="button button-quiet" onClick={() => picker.current?.click()}>
          Import files
        </button>
        <input
          ref={picker}
          type="file"
          multiple
          hidden
          aria-label="Files to import"
          accept=".mdx,.md,.yaml,.yml,.png,.jpg,.jpeg,.svg,.webp"
          onChange={({ target }) => {
            importFiles([...(target.files ?? [])]);
            // The same file can be chosen again.
            target.value = '';
          }}
        />
        <FolderActions />
        {canUndo !== undefined && (
          <button type="button" className="button button-quiet" onClick={store.undo}>
            Undo: {canUndo}
          </button>
        )}
        {canRedo !== undefined && (
          <button type="button" className="button button-quiet" onClick={store.redo}>
            Redo: {canRedo}
          </button>
        )}
        <span className="shelf-actions-note">or drop files anywhere here</span>
      </div>
      {making === 'empty' && <NewTree close={close} />}
      {making === 'drafted' && <NewTreeFromBench close={close} />}
      {outcomes.length > 0 && (
        <div className="shelf-outcomes" role="status">
          <ul>
            {outcomes.map((outcome) => (
              <li key={`${outcome.name} ${outcome.code}`}>{importWords(outcome)}</li>
            ))}
          </ul>
          <button type="button" className="button-plain" onClick={forget}>
            Understood
          </button>
        </div>
      )}
    </div>
  );
}

function NewTree({ close }: { readonly close: () => void }) {
  const store = useDeskStore();
  const [title, setTitle] = useState('');
  const [problem, setProblem] = useState<string>();
  const make = (event: FormEvent): void => {
    event.preventDefault();
    const plain = title.trim().replace(/\s+/g, ' ');
    const slug = stepId(plain);
    if (slug === '') {
      setProblem('Give it a title with a letter or a digit in it.');
      return;
    }
    let name = slug;
    for (let count = 2; store.files().has(treePath(name)); count += 1) name = `${slug}-${count}`;
    store.write(treePath(name), blankTreeText(name, plain), `New tree “${plain}”`);
    window.location.hash = editAddress(name, 'opening');
  };
  return (
    <form className="new-tree" onSubmit={make}>
      <label htmlFor="new-tree-title">What the crew calls it</label>
      <input
        id="new-tree-title"
        // biome-ignore lint/a11y/noAutofocus: the field came because it was asked for.
        autoFocus
        value={title}
        autoComplete="off"
        placeholder="No heat, thermostat calls"
        aria-invalid={problem !== undefined}
        onChange={(event) => setTitle(event.target.value)}
      />
      <button type="submit" className="button">
        Create
      </button>
      <button type="button" className="button button-quiet" onClick={close}>
        Cancel
      </button>
      {problem !== undefined && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
    </form>
  );
}
