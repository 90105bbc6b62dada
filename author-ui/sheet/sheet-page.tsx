import { useRef } from 'react';
import { type Shelf, titleOf } from '../data/read-shelf.ts';
import { treeAddress } from '../desk-route.ts';
import { NoSuchTree } from '../document/no-such-tree.tsx';
import { Notice } from '../frame/notice.tsx';
import { useTitle } from '../frame/use-title.ts';
import { TreePages } from '../proof/tree-pages.tsx';
import { SheetPaper } from './sheet-paper.tsx';
import { SHEET_WORDS } from './sheet-words.ts';
import { useFittingSize } from './use-fitting-size.ts';

/** A tree as two printed pages. */
export function SheetPage({ shelf, name }: { readonly shelf: Shelf; readonly name: string }) {
  const shelved = shelf.trees.find((tree) => tree.name === name);
  const paper = useRef<HTMLElement>(null);
  const { size, settled, fits } = useFittingSize(paper, `${name} ${shelved?.source.length}`);
  useTitle(shelved ? `${SHEET_WORDS.title}: ${titleOf(shelved)}` : 'No such tree');
  if (!shelved) return <NoSuchTree name={name} />;
  if (!shelved.tree) {
    return (
      <Notice title="This tree cannot be printed yet">
        <p>Its text has errors. They stand under Read, each with the way out.</p>
        <a className="button" href={treeAddress(name)}>
          Go to its problems
        </a>
      </Notice>
    );
  }
  return (
    <div className="sheet-page">
      <header className="sheet-bar">
        <h1>{titleOf(shelved)}</h1>
        <TreePages name={name} at="sheet" />
        <div className="sheet-actions">
          <p>{fits ? SHEET_WORDS.lead : SHEET_WORDS.tooLong}</p>
          <button type="button" className="button" disabled={!settled} onClick={() => window.print()}>
            {SHEET_WORDS.print}
          </button>
        </div>
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways must be reachable by keyboard (WCAG 2.1.1). */}
      <section className="sheet-desk" aria-label={SHEET_WORDS.title} aria-busy={!settled} tabIndex={0}>
        <div className="sheet-frame">
          <SheetPaper ref={paper} tree={shelved.tree} shelved={shelved} shelf={shelf} size={size} />
        </div>
      </section>
    </div>
  );
}
