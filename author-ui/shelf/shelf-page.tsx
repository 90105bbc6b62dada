import { useState } from 'react';
import type { Shelf } from '../data/read-shelf.ts';
import { Notice } from '../frame/notice.tsx';
import { useFolder } from '../store/desk-root.tsx';
import { BenchList } from './bench-list.tsx';
import { FolderNote } from './folder-actions.tsx';
import { RemovedFiles } from './removed-files.tsx';
import { searchShelf } from './search-shelf.ts';
import { ShelfActions } from './shelf-actions.tsx';
import { ShelfTable } from './shelf-table.tsx';
import { useImport } from './use-import.ts';

const countText = (found: number, all: number): string => (found === all ? `${all} ${all === 1 ? 'tree' : 'trees'}` : `${found} of ${all} trees`);

export function ShelfPage({ shelf }: { readonly shelf: Shelf }) {
  const { trees } = shelf;
  const [query, setQuery] = useState('');
  const found = searchShelf(trees, query);
  const { importFiles, outcomes, forget, dropTarget, isOver } = useImport();
  const actions = <ShelfActions importFiles={importFiles} outcomes={outcomes} forget={forget} />;
  if (trees.length === 0) {
    return (
      <div className="shelf-drop" data-over={isOver || undefined} {...dropTarget}>
        <EmptyShelf />
        <div className="shelf">
          <FolderNote />
          {actions}
          <BenchList shelf={shelf} />
          <RemovedFiles />
        </div>
      </div>
    );
  }
  return (
    <div className="shelf shelf-drop" data-over={isOver || undefined} {...dropTarget}>
      <div className="shelf-head">
        <h1>Shelf</h1>
        <p className="shelf-count" role="status">
          {countText(found.length, trees.length)}
        </p>
        <search className="shelf-search">
          <label htmlFor="shelf-query">Search complaints, steps, parts</label>
          <input
            id="shelf-query"
            type="search"
            value={query}
            autoComplete="off"
            spellCheck={false}
            onChange={(event) => setQuery(event.target.value)}
          />
        </search>
      </div>
      <FolderNote />
      {actions}
      {found.length > 0 ? (
        <ShelfTable trees={found} />
      ) : (
        <p className="shelf-nothing">
          No tree has all of these words.{' '}
          <button type="button" className="button-plain" onClick={() => setQuery('')}>
            Show all {trees.length}
          </button>
        </p>
      )}
      <BenchList shelf={shelf} />
      <RemovedFiles />
    </div>
  );
}

function EmptyShelf() {
  const open = useFolder();
  if (open) {
    return (
      <Notice title="The shelf is empty">
        <p>
          The folder <strong>{open.folder.name}</strong> has no tree in it yet. Begin one here or import its files: each becomes a file of the folder.
        </p>
      </Notice>
    );
  }
  return (
    <Notice title="The shelf is empty">
      <p>
        Begin a tree here, or import the files of one. Files that end in <code>.tree.mdx</code> in the service's folder <code>trees</code> show here
        too, as soon as this window is looked at again; their manual is <code>trees/README.md</code>.
      </p>
    </Notice>
  );
}
