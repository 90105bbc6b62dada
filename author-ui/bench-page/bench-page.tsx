import { useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import { type Bench, readBench } from '../../engine/bench/index.ts';
import { shelfAddress, treeAddress } from '../desk-route.ts';
import { Notice } from '../frame/notice.tsx';
import { useTitle } from '../frame/use-title.ts';
import { benchPath, treeOfPath } from '../store/desk-file.ts';
import { benchesNamedIn } from '../store/edit-tree-text.ts';
import { useDeskFile, useDeskFiles, useDeskSnapshot, useDeskStore } from '../store/use-desk-store.ts';
import { EditableBench } from './bench-edits.ts';
import { BenchForms, type Pointed } from './bench-forms.tsx';
import { BenchText } from './bench-text.tsx';
import { BenchWorkbench } from './bench-workbench.tsx';
import { benchWrite } from './bench-write.ts';

/** A bench: the drawn circuit to try, its parts and faults as forms, and the file itself, all of one text. */
export function BenchPage({ name }: { readonly name: string }) {
  const file = useDeskFile(benchPath(name));
  if (!file) {
    return (
      <Notice title="There is no such bench">
        <p>
          The desk has no <code>benches/{name}.bench.yaml</code>. It may have been renamed.
        </p>
        <a className="button" href={shelfAddress}>
          Go to the shelf
        </a>
      </Notice>
    );
  }
  return <OpenBench key={name} name={name} text={file.text} />;
}

function OpenBench({ name, text }: { readonly name: string; readonly text: string }) {
  const store = useDeskStore();
  const path = benchPath(name);
  // Reading and solving may wait for the next key; the letters on screen never do.
  const settled = useDeferredValue(text);
  const read = useMemo(() => readBench(settled, { file: `trees/${path}` }), [settled, path]);
  const isSound = read.bench !== undefined && !read.problems.some(({ severity }) => severity === 'error');
  const last = useRef<Bench>(undefined);
  if (isSound) last.current = read.bench;
  useEffect(() => store.hold(path), [store, path]);
  useTitle(read.bench?.title ?? name);
  const editable = useMemo(() => (read.bench ? new EditableBench(settled, read.bench, read.places) : undefined), [read, settled]);
  const [opened, setOpened] = useState<Pointed>();
  const [line, setLine] = useState<number>();
  const pointed = line === undefined ? undefined : editable?.entryAt(line);
  const shown = opened && editable?.linesOf(opened.section, opened.name);
  const write = useMemo(() => benchWrite(store, name), [store, name]);
  return (
    <article
      className="bench-page"
      onKeyDown={(event) => {
        // In a field of a form that is not saved yet, undo is the field's own.
        const key = event.key.toLowerCase();
        if (!(event.ctrlKey || event.metaKey) || event.defaultPrevented || (key !== 'z' && key !== 'y') || isTypedIn(event.target)) return;
        event.preventDefault();
        if (key === 'y' || event.shiftKey) store.redo();
        else store.undo();
      }}
    >
      <header className="bench-head">
        <h1>{read.bench?.title ?? last.current?.title ?? name}</h1>
        <p>
          <code>{path}</code> <UsedBy name={name} />
        </p>
        <UndoButtons />
        {read.bench?.about !== undefined && <p>{read.bench.about}</p>}
      </header>
      {!isSound && (
        <p className="bench-stale" role="status">
          The file has problems.{' '}
          {last.current ? 'The circuit below is the last one that could be solved.' : 'The circuit is drawn and solved once they are put right.'}
        </p>
      )}
      {last.current && <BenchWorkbench bench={last.current} />}
      <div className="bench-source">
        <BenchForms now={editable} problems={read.problems} write={write} pointed={pointed} opened={setOpened} />
        <BenchText
          file={path}
          text={text}
          problems={read.problems}
          isCurrent={settled === text}
          shown={shown}
          onText={(next) => store.write(path, next, `edit ${name} as text`)}
          cursorAt={setLine}
          undo={store.undo}
          redo={store.redo}
        />
      </div>
    </article>
  );
}

const isTypedIn = (target: EventTarget): boolean =>
  target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && !['checkbox', 'radio', 'range'].includes(target.type));

function UndoButtons() {
  const store = useDeskStore();
  const { canUndo, canRedo } = useDeskSnapshot();
  return (
    <p className="bench-undo">
      <button
        type="button"
        className="button button-quiet"
        disabled={canUndo === undefined}
        title={canUndo === undefined ? 'Nothing to undo' : `Undo: ${canUndo} (Ctrl+Z)`}
        onClick={() => store.undo()}
      >
        Undo
      </button>{' '}
      <button
        type="button"
        className="button button-quiet"
        disabled={canRedo === undefined}
        title={canRedo === undefined ? 'Nothing to redo' : `Redo: ${canRedo} (Ctrl+Shift+Z)`}
        onClick={() => store.redo()}
      >
        Redo
      </button>
    </p>
  );
}

/** The trees whose head names this bench. */
function UsedBy({ name }: { readonly name: string }) {
  const files = useDeskFiles();
  const trees = [...files.values()].flatMap(({ path, text }) => {
    const tree = treeOfPath(path);
    return tree !== undefined && benchesNamedIn(text).includes(name) ? [{ tree, title: /^title:\s*(.+)$/m.exec(text)?.[1] ?? tree }] : [];
  });
  if (trees.length === 0) return <span>No tree is checked against it.</span>;
  return (
    <span>
      Checked against it:{' '}
      {trees.map(({ tree, title }, index) => (
        <span key={tree}>
          {index > 0 && ', '}
          <a href={treeAddress(tree)}>{title}</a>
        </span>
      ))}
    </span>
  );
}
