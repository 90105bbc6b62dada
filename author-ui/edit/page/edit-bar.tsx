import type { StepKind } from '../../../engine/tree/index.ts';
import { treeAddress } from '../../desk-route.ts';
import { KIND_WORDS } from '../../document/step-task.ts';
import { TreePages } from '../../proof/tree-pages.tsx';
import { useFolder } from '../../store/desk-root.tsx';
import { useDeskSnapshot, useDeskStore } from '../../store/use-desk-store.ts';
import { addStep } from '../step-edits.ts';
import { StepSearch } from './step-search.tsx';
import { PANE_NAMES, type PaneName, type UsePanes } from './use-panes.ts';
import type { TreeEditor } from './use-tree-editor.ts';

type EditBarProps = {
  readonly editor: TreeEditor;
  readonly shown: string;
  readonly select: (step: string) => void;
  readonly open: UsePanes;
};

const KINDS = Object.keys(KIND_WORDS) as StepKind[];
const PANE_WORDS: Readonly<Record<PaneName, string>> = { graph: 'Graph', form: 'Form', text: 'Text' };

/** The head of the editing page: where one is, what can be done to the whole, and whether it is saved. */
export function EditBar({ editor, shown, select, open: { panes, toggle, toggleTry } }: EditBarProps) {
  const store = useDeskStore();
  const { save, canUndo, canRedo } = useDeskSnapshot();
  // Whether the folder has it too, its mark in the page's head says.
  const saved = useFolder() ? 'Saved' : 'Saved in this browser';
  const { tree, edit, name, locked } = editor;
  const add = (kind: StepKind): void => {
    let made = '';
    edit('Add a step', (now) => {
      const added = addStep(now, kind, shown === 'opening' ? undefined : shown);
      made = added.id;
      return added.tree;
    });
    if (made !== '') select(made);
  };
  return (
    <div className="edit-bar">
      <div className="edit-bar-title">
        <h1>
          <a href={treeAddress(name)} title="Read it as a document">
            {tree?.title ?? name}
          </a>
        </h1>
        <TreePages name={name} at="edit" />
        <span className="edit-save" role="status">
          {save.state === 'saving' ? 'Saving…' : save.state === 'saved' ? saved : 'Not saved'}
        </span>
      </div>
      <div className="edit-bar-tools">
        <button
          type="button"
          className="button button-quiet"
          disabled={canUndo === undefined}
          title={canUndo === undefined ? 'Nothing to undo' : `Undo: ${canUndo} (Ctrl+Z)`}
          onClick={store.undo}
        >
          Undo
        </button>
        <button
          type="button"
          className="button button-quiet"
          disabled={canRedo === undefined}
          title={canRedo === undefined ? 'Nothing to redo' : `Redo: ${canRedo} (Ctrl+Shift+Z)`}
          onClick={store.redo}
        >
          Redo
        </button>
        <button type="button" className="button button-quiet" aria-pressed={shown === 'opening'} disabled={!tree} onClick={() => select('opening')}>
          Tree and opening
        </button>
        <select
          aria-label="Add a step"
          className="button button-quiet"
          value=""
          disabled={!tree || locked !== undefined}
          onChange={(event) => add(KINDS.find((kind) => kind === event.target.value) ?? 'reading')}
        >
          <option value="" disabled>
            Add a step…
          </option>
          {KINDS.map((kind) => (
            <option key={kind} value={kind}>
              {KIND_WORDS[kind]}
            </option>
          ))}
        </select>
        {tree && <StepSearch tree={tree} shown={shown} select={select} />}
        <fieldset className="edit-panes-choice">
          <legend className="unseen">Panes</legend>
          {PANE_NAMES.map((pane) => (
            <button key={pane} type="button" aria-pressed={panes[pane]} onClick={() => toggle(pane)}>
              {PANE_WORDS[pane]}
            </button>
          ))}
        </fieldset>
        <button type="button" className="button button-quiet" aria-pressed={panes.tries} onClick={toggleTry}>
          Try it
        </button>
      </div>
    </div>
  );
}
