import { useDeferredValue, useEffect, useMemo, useRef } from 'react';
import { type Bench, readBench } from '../../engine/bench/index.ts';
import { shelfAddress, treeAddress } from '../desk-route.ts';
import { Notice } from '../frame/notice.tsx';
import { useTitle } from '../frame/use-title.ts';
import { benchPath, treeOfPath } from '../store/desk-file.ts';
import { useDeskFile, useDeskFiles, useDeskSnapshot, useDeskStore } from '../store/use-desk-store.ts';
import { BenchForms } from './bench-forms.tsx';
import { BenchText } from './bench-text.tsx';
import { BenchWorkbench } from './bench-workbench.tsx';

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
  const write = (next: string, label: string): void => store.write(path, next, label);
  return (
    <article
      className="bench-page"
      onKeyDown={(event) => {
        // In a field of a form that is not saved yet, undo is the field's own.
        if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z' || event.target instanceof HTMLInputElement) return;
        event.preventDefault();
        if (event.shiftKey) store.redo();
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
        <BenchForms text={settled} write={write} />
        <BenchText file={path} text={text} problems={read.problems} onText={(next) => write(next, `edit ${name} as text`)} />
      </div>
    </article>
  );
}

function UndoButtons() {
  const store = useDeskStore();
  const { canUndo, canRedo } = useDeskSnapshot();
  return (
    <p className="bench-undo">
      <button type="button" className="button button-quiet" disabled={canUndo === undefined} title={canUndo} onClick={() => store.undo()}>
        Undo
      </button>{' '}
      <button type="button" className="button button-quiet" disabled={canRedo === undefined} title={canRedo} onClick={() => store.redo()}>
        Redo
      </button>
    </p>
  );
}

const BENCHES = /^benches:\s*(.*(?:\n[ \t]+-.*)*)/m;

/** The trees whose head names this bench. */
function UsedBy({ name }: { readonly name: string }) {
  const files = useDeskFiles();
  const trees = [...files.values()].flatMap(({ path, text }) => {
    const tree = treeOfPath(path);
    const named = (BENCHES.exec(text)?.[1] ?? '').split(/[^a-z0-9-]+/);
    return tree !== undefined && named.includes(name) ? [{ tree, title: /^title:\s*(.+)$/m.exec(text)?.[1] ?? tree }] : [];
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
