import { useEffect } from 'react';
import { type Shelf, type ShelfTree, titleOf } from '../data/read-shelf.ts';
import { editAddress } from '../desk-route.ts';
import { useTitle } from '../frame/use-title.ts';
import { TreePages } from '../proof/tree-pages.tsx';
import { shelfState } from '../shelf/shelf-state.ts';
import { WalkLink } from '../shelf/shelf-table.tsx';
import { NoSuchTree } from './no-such-tree.tsx';
import { ProblemList } from './problem-list.tsx';
import { stepElementId } from './step-element.ts';
import { TreeDocument } from './tree-document.tsx';
import { TreeOutline } from './tree-outline.tsx';

type TreePageProps = { readonly shelf: Shelf; readonly name: string; readonly step?: string };

export function TreePage({ shelf, name, step }: TreePageProps) {
  const shelved = shelf.trees.find((tree) => tree.name === name);
  useGoToStep(step);
  useTitle(shelved ? titleOf(shelved) : 'No such tree');
  if (!shelved) return <NoSuchTree name={name} />;
  const { tree } = shelved;
  return (
    <div className={tree ? 'reading' : 'reading reading-broken'}>
      {tree && <TreeOutline tree={tree} problems={shelved.problems} />}
      <article className="document">
        <DocumentHead shelved={shelved} />
        <ProblemList problems={shelved.problems} source={shelved.source} tree={tree} />
        {tree && <TreeDocument tree={tree} shelved={shelved} shelf={shelf} />}
      </article>
    </div>
  );
}

function DocumentHead({ shelved }: { readonly shelved: ShelfTree }) {
  const { edition } = shelfState(shelved);
  return (
    <header className="document-head">
      <h1>{titleOf(shelved)}</h1>
      <TreePages name={shelved.name} at="tree" />
      {shelved.tree && <p className="complaint">{shelved.tree.complaint}</p>}
      <div className="document-state">
        <span>
          <code>{shelved.file}</code>
        </span>
        {edition === undefined ? (
          <span>Not published, so it cannot be walked yet.</span>
        ) : (
          <span>
            Published as edition <code>{edition}</code>
          </span>
        )}
        <span className="document-actions">
          <a className="button button-quiet" href={editAddress(shelved.name)}>
            Edit
          </a>
          {edition !== undefined && <WalkLink shelved={shelved} />}
          {shelved.tree && (
            <button type="button" className="button button-quiet" onClick={() => window.print()}>
              Print
            </button>
          )}
        </span>
      </div>
    </header>
  );
}

/** Brings the step that the address names into view, and puts the keyboard there. */
function useGoToStep(step: string | undefined): void {
  useEffect(() => {
    if (step === undefined) return;
    const section = document.getElementById(stepElementId(step));
    section?.scrollIntoView({ block: 'start' });
    section?.focus({ preventScroll: true });
  }, [step]);
}
