import { structuredPatch } from 'diff';
import { useMemo } from 'react';
import { isFigure } from '../store/desk-file.ts';
import type { FolderSync } from '../store/folder/folder-sync.ts';
import type { FolderConflict } from '../store/folder/merge-folder.ts';
import { useDeskFile } from '../store/use-desk-store.ts';

type FolderConflictsProps = { readonly conflicts: readonly FolderConflict[]; readonly sync: FolderSync };

/** Files that were changed here and by another program too: both texts, and which of them is to stay. */
export function FolderConflicts({ conflicts, sync }: FolderConflictsProps) {
  return (
    <section className="folder-conflicts" role="alert" aria-label="Files changed twice">
      {conflicts.map((conflict) => (
        <Conflict key={conflict.path} conflict={conflict} sync={sync} />
      ))}
    </section>
  );
}

function Conflict({ conflict: { path, theirs }, sync }: { readonly conflict: FolderConflict; readonly sync: FolderSync }) {
  const mine = useDeskFile(path)?.text;
  const decide = (keep: 'mine' | 'theirs' | 'both') => (): void => void sync.decide(path, keep);
  return (
    <article className="folder-conflict">
      <h2>
        <code>{path}</code> {theirs === undefined ? 'was removed from the folder' : 'was changed by another program'}
        {mine === undefined ? ', and removed here' : ', and changed here too'}
      </h2>
      <p>
        Nothing is written to it until you decide. Both are kept until then, and what you do not keep now comes back with undo while this window is
        open.
      </p>
      <div className="folder-conflict-choices">
        <button type="button" className="button" onClick={decide('mine')}>
          {mine === undefined ? 'Remove it' : 'Keep yours'}
        </button>
        <button type="button" className="button" onClick={decide('theirs')}>
          {theirs === undefined ? 'Let it be removed' : "Keep the folder's"}
        </button>
        {mine !== undefined && theirs !== undefined && (
          <button type="button" className="button" onClick={decide('both')}>
            Keep both, yours as a copy
          </button>
        )}
      </div>
      {mine !== undefined && theirs !== undefined && !isFigure(path) && <Differences mine={mine} theirs={theirs} />}
      {(mine === undefined || theirs === undefined) && !isFigure(path) && (
        <details>
          <summary>{mine === undefined ? "The folder's text" : 'Your text'}</summary>
          <OneText text={mine ?? theirs ?? ''} />
        </details>
      )}
    </article>
  );
}

/** Both texts where they differ, side by side. */
function Differences({ mine, theirs }: { readonly mine: string; readonly theirs: string }) {
  const hunks = useMemo(() => structuredPatch('', '', theirs, mine, '', '', { context: 2 }).hunks, [mine, theirs]);
  return (
    <table className="folder-differences">
      <thead>
        <tr>
          <th scope="col">Yours, here</th>
          <th scope="col">In the folder</th>
        </tr>
      </thead>
      <tbody>
        {hunks.map(({ newStart, oldStart, lines }) => (
          <tr key={`${oldStart} ${newStart}`}>
            <td>
              <Lines from={newStart} lines={lines.filter((line) => !line.startsWith('-'))} changed="+" word="yours" />
            </td>
            <td>
              <Lines from={oldStart} lines={lines.filter((line) => !line.startsWith('+'))} changed="-" word="the folder's" />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

type LinesProps = { readonly from: number; readonly lines: readonly string[]; readonly changed: string; readonly word: string };

function Lines({ from, lines, changed, word }: LinesProps) {
  return (
    <pre>
      {lines.map((line, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a line is known by its place.
        <span key={index} className={line.startsWith(changed) ? 'folder-line-changed' : undefined}>
          <span className="folder-line-number" aria-hidden="true">
            {from + index}
          </span>
          {line.startsWith(changed) && <span className="unseen">only {word}: </span>}
          {line.slice(1)}
          {'\n'}
        </span>
      ))}
    </pre>
  );
}

function OneText({ text }: { readonly text: string }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a long text that scrolls has to be reached by the keyboard.
    <pre className="folder-one-text" tabIndex={0}>
      {text}
    </pre>
  );
}
