import { useState } from 'react';
import type { Shelf } from '../data/read-shelf.ts';
import { Notice } from '../frame/notice.tsx';
import { BenchList } from './bench-list.tsx';
import { searchShelf } from './search-shelf.ts';
import { ShelfTable } from './shelf-table.tsx';

const countText = (found: number, all: number): string => (found === all ? `${all} ${all === 1 ? 'tree' : 'trees'}` : `${found} of ${all} trees`);

export function ShelfPage({ shelf }: { readonly shelf: Shelf }) {
  const { trees } = shelf;
  const [query, setQuery] = useState('');
  const found = searchShelf(trees, query);
  if (trees.length === 0) return <EmptyShelf />;
  return (
    <div className="shelf">
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
    </div>
  );
}

function EmptyShelf() {
  return (
    <Notice title="The shelf is empty">
      <p>
        Trees are files that end in <code>.tree.mdx</code>, in the folder <code>trees</code>. Write the first one there: its manual is{' '}
        <code>trees/README.md</code>. It shows here as soon as this window is looked at again.
      </p>
    </Notice>
  );
}
