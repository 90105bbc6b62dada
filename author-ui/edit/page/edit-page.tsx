import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { Problem } from '../../../engine/problem.ts';
import type { Tree } from '../../../engine/tree/index.ts';
import { shelfAddress } from '../../desk-route.ts';
import { stepNumbers } from '../../document/step-links.ts';
import { Notice } from '../../frame/notice.tsx';
import { useTitle } from '../../frame/use-title.ts';
import { isFigure, treeOfPath, treePath } from '../../store/desk-file.ts';
import { useDeskFiles, useDeskSnapshot, useDeskStore } from '../../store/use-desk-store.ts';
import { TryPane } from '../../try/try-pane.tsx';
import { ExpectedContext, useExpected } from '../../try/use-expected.ts';
import { OpeningForm } from '../form/opening-form.tsx';
import { StepForm } from '../form/step-form.tsx';
import { TreeGraph } from '../graph/tree-graph.tsx';
import type { QuickFix } from '../quick-fix.ts';
import { relinkedElsewhere, renameStep, withId } from '../rename-step.ts';
import { changeStep } from '../step-edits.ts';
import { TreeText } from '../text/tree-text.tsx';
import { EditBar } from './edit-bar.tsx';
import { type Editing, EditingContext } from './edit-context.ts';
import { ProblemsPanel } from './problems-panel.tsx';
import { renameProblemWords } from './rename-words.ts';
import { usePanes } from './use-panes.ts';
import { type TreeEditor, useTreeEditor } from './use-tree-editor.ts';

/** The page where a tree is written: graph, form and text of the same tree, in step. */
export function EditPage({ name, step, tries }: { readonly name: string; readonly step?: string; readonly tries: boolean }) {
  const store = useDeskStore();
  const { load, canRedo } = useDeskSnapshot();
  const editor = useTreeEditor(name);
  useTitle(editor?.tree ? `Edit ${editor.tree.title}` : 'Edit a tree');
  if (!editor) {
    if (load.state === 'loading') return <p className="loading">Opening the tree…</p>;
    return (
      <Notice title="There is no such tree">
        <p>
          The desk has no <code>{treePath(name)}</code>. It may have been renamed or removed; undo brings back what was removed in this window.
        </p>
        <a className="button" href={shelfAddress}>
          Go to the shelf
        </a>{' '}
        {canRedo !== undefined && (
          <button type="button" className="button button-quiet" onClick={store.redo}>
            Redo: {canRedo}
          </button>
        )}
      </Notice>
    );
  }
  return <EditPanes key={`${name} ${step ?? ''} ${tries}`} editor={editor} start={step} tries={tries} />;
}

function EditPanes({ editor, start, tries }: { readonly editor: TreeEditor; readonly start: string | undefined; readonly tries: boolean }) {
  const store = useDeskStore();
  const files = useDeskFiles();
  const { name, text, tree, facts, names, check, edit, locked } = editor;
  const [chosen, setChosen] = useState(start);
  // A form keeps its fields, and what is half typed in them, while its step is renamed; it begins anew for another step.
  const [formKey, setFormKey] = useState(0);
  const select = useCallback((id: string) => {
    setChosen(id);
    setFormKey((now) => now + 1);
  }, []);
  const formPane = useRef<HTMLDivElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a form that begins anew begins at its top.
  useEffect(() => {
    formPane.current?.scrollTo(0, 0);
  }, [formKey]);
  const [goTo, setGoTo] = useState<{ readonly line: number; readonly column: number }>();
  const open = usePanes(tries);
  const { panes } = open;
  const shown = chosen === 'opening' || tree?.steps.some(({ id }) => id === chosen) ? (chosen ?? 'opening') : (tree?.steps[0]?.id ?? 'opening');
  useEffect(() => store.hold(treePath(name)), [store, name]);
  useUndoKeys(store.undo, store.redo);

  const figures = useMemo(
    () => Object.fromEntries([...files.values()].flatMap(({ path, text: data }) => (isFigure(path) ? [[path, data]] : []))),
    [files],
  );
  const numbers = useMemo(() => (tree ? stepNumbers(tree) : new Map<string, number>()), [tree]);
  const problems = check.problems;

  const rename = useCallback<Editing['rename']>(
    (id, to) => {
      let refused: string | undefined;
      let renamed = id;
      const change = (now: Tree): Tree => {
        const result = 'title' in to ? renameStep(now, id, to.title) : withId(now, id, to.id);
        if (!result.ok) {
          refused = renameProblemWords(result.problem);
          return now;
        }
        renamed = result.value.id;
        return result.value.tree;
      };
      // Trees that lead to the step follow, as part of the same step of work.
      const along = () =>
        [...store.files().values()].flatMap(({ path, text: before }) => {
          const after =
            renamed === id || treeOfPath(path) === undefined || path === treePath(name) ? before : relinkedElsewhere(before, name, id, renamed);
          return after === before ? [] : [[path, after] as const];
        });
      edit('title' in to ? 'Change the title of a step' : 'Change the id of a step', change, along);
      if (renamed === id) return refused;
      setChosen(renamed);
      return refused;
    },
    [edit, store, name],
  );
  const editing = useMemo<Editing | undefined>(
    () =>
      tree && {
        tree,
        facts,
        names,
        figures,
        numbers,
        edit,
        rename,
        select,
        editStep: (label, id, change) => edit(label, (now) => changeStep(now, id, change)),
      },
    [tree, facts, names, figures, numbers, edit, rename, select],
  );
  const go = (problem: Problem): void => {
    if (problem.step !== undefined && tree) select(problem.step);
    if (panes.text) setGoTo({ line: problem.line, column: problem.column });
    else if (problem.step === undefined) select('opening');
  };
  const repair = ({ label, text: next, tree: to }: QuickFix): void => {
    if (next !== undefined) editor.writeText(next, label);
    else if (to) edit(label, () => to);
  };
  const step = tree?.steps.find(({ id }) => id === shown);
  const expected = useExpected(name, panes.form && step?.kind === 'reading' && (tree?.benches.length ?? 0) > 0);
  const steps = useMemo(() => tree?.steps.map(({ id }) => id) ?? [], [tree]);

  return (
    <div className="edit-page">
      <EditBar editor={editor} shown={shown} select={select} open={open} />
      <div className="edit-panes">
        {panes.graph && (
          <div className="edit-pane edit-pane-graph">
            {tree && tree.steps.length > 0 ? (
              <TreeGraph tree={tree} problems={problems} shown={shown} select={select} />
            ) : (
              <p className="pane-note">{locked ?? 'Reading the tree…'}</p>
            )}
          </div>
        )}
        {panes.form && (
          <div className="edit-pane edit-pane-form" ref={formPane}>
            {locked !== undefined && (
              <p className="pane-locked" role="status">
                {locked}
              </p>
            )}
            {editing && (
              <EditingContext value={editing}>
                <ExpectedContext value={expected}>
                  {shown === 'opening' || !step ? <OpeningForm /> : <StepForm key={formKey} step={step} />}
                </ExpectedContext>
              </EditingContext>
            )}
          </div>
        )}
        {panes.tries && (
          <div className="edit-pane edit-pane-try">
            <TryPane name={name} from={tries ? start : undefined} shown={shown} select={select} />
          </div>
        )}
        {panes.text && (
          <div className="edit-pane edit-pane-text">
            <TreeText
              text={text}
              problems={check.checked?.text === text ? problems : NONE}
              places={check.places}
              steps={steps}
              shown={shown}
              goTo={goTo}
              change={(next) => editor.writeText(next, 'Edit the text')}
              select={select}
              undo={store.undo}
              redo={store.redo}
            />
          </div>
        )}
      </div>
      <ProblemsPanel
        problems={problems}
        text={check.checked?.text ?? text}
        tree={check.tree}
        checking={check.checking}
        failed={check.failed}
        go={go}
        repair={repair}
      />
    </div>
  );
}

const NONE: readonly Problem[] = [];

/** Undo and redo are the desk's in every field, so that one history holds everything in order. */
function useUndoKeys(undo: () => void, redo: () => void): void {
  useEffect(() => {
    const key = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.defaultPrevented) return;
      const pressed = event.key.toLowerCase();
      const run = pressed === 'z' ? (event.shiftKey ? redo : undo) : pressed === 'y' ? redo : undefined;
      if (!run) return;
      event.preventDefault();
      run();
    };
    window.addEventListener('keydown', key);
    return () => window.removeEventListener('keydown', key);
  }, [undo, redo]);
}
