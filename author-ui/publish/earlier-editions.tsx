import { writeTree } from '../../engine/tree/index.ts';
import { walkAddress } from '../desk-route.ts';
import { EditionActions } from './edition-actions.tsx';
import type { StoredPublication } from './publication-store.ts';

type EarlierEditionsProps = {
  readonly list: readonly StoredPublication[];
  readonly name: string;
  readonly crewHash: string | undefined;
  /** The hash of the one that is open to read. */
  readonly read: string | undefined;
  readonly setRead: (hash: string | undefined) => void;
};

/** Everything that was published: who, why and what changed; each can still be read and walked. */
export function EarlierEditions({ list, name, crewHash, read, setRead }: EarlierEditionsProps) {
  return (
    <section className="editions" aria-labelledby="editions-title">
      <h2 id="editions-title">Editions</h2>
      {crewHash !== undefined && (
        <p>
          The crew's service gives edition <code>{crewHash.slice(0, 12)}</code>. <a href={walkAddress(name)}>Walk that one</a>
        </p>
      )}
      {list.length === 0 ? (
        <p>None was published in this browser yet.</p>
      ) : (
        <ol>
          {list.map((publication) => (
            <Published key={publication.hash} publication={publication} isOpen={read === publication.hash} setRead={setRead} />
          ))}
        </ol>
      )}
    </section>
  );
}

type PublishedProps = {
  readonly publication: StoredPublication;
  readonly isOpen: boolean;
  readonly setRead: EarlierEditionsProps['setRead'];
};

function Published({ publication, isOpen, setRead }: PublishedProps) {
  const { hash, by, why, at, changes, accepted, steps, name, edition } = publication;
  const reasons = Object.entries(accepted);
  return (
    <li className="edition">
      <div className="edition-head">
        <p>
          <code>{hash.slice(0, 12)}</code> by <strong>{by}</strong>, <time dateTime={at}>{new Date(at).toLocaleString()}</time>, {steps} steps
        </p>
        <span>
          <button
            type="button"
            className="button button-quiet"
            aria-expanded={isOpen}
            aria-label={`Read edition ${hash.slice(0, 12)}`}
            onClick={() => setRead(isOpen ? undefined : hash)}
          >
            Read
          </button>{' '}
          <EditionActions publication={withoutList(publication)} name={name} />
        </span>
      </div>
      <p>{why}</p>
      <ul className="publish-changes">
        {changes.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      {reasons.length > 0 && <p className="edition-reasons">Let stand: {reasons.map(([code, reason]) => `${code} (${reason})`).join('; ')}</p>}
      {isOpen && (
        <section aria-label={`Edition ${hash.slice(0, 12)}`}>
          {Object.values(edition.trees).map((tree) => (
            // biome-ignore lint/a11y/noNoninteractiveTabindex: a long text that scrolls has to be reached by the keyboard.
            <pre key={tree.name} className="edition-text" tabIndex={0}>
              {writeTree(tree)}
            </pre>
          ))}
        </section>
      )}
    </li>
  );
}

/** A publication as it goes to a file: without what only a list here shows. */
function withoutList({ name: _name, title: _title, steps: _steps, ...publication }: StoredPublication) {
  return publication;
}
