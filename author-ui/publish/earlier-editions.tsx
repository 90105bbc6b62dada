import { walkAddress } from '../desk-route.ts';
import { EditionActions } from './edition-actions.tsx';
import { EditionReasons } from './edition-reasons.tsx';
import { EditionText } from './edition-text.tsx';
import type { StoredPublication } from './publication-store.ts';

type EarlierEditionsProps = {
  readonly list: readonly StoredPublication[];
  readonly name: string;
  /** What the service gives of the tree to who is in no crew. */
  readonly shippedHash: string | undefined;
  readonly inCrew: boolean;
  /** The hash of the one that is open to read. */
  readonly read: string | undefined;
  readonly setRead: (hash: string | undefined) => void;
};

/** Everything that was published: who, why and what changed; each can still be read and walked. */
export function EarlierEditions({ list, name, shippedHash, inCrew, read, setRead }: EarlierEditionsProps) {
  return (
    <section className="editions" aria-labelledby="editions-title">
      <h2 id="editions-title">{inCrew ? 'Published in this browser only' : 'Editions'}</h2>
      {shippedHash !== undefined && (
        <p>
          The service gives edition <code>{shippedHash.slice(0, 12)}</code>. <a href={walkAddress(name)}>Walk that one</a>
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
      <EditionReasons why={why} changes={changes} accepted={accepted} />
      {isOpen && <EditionText hash={hash} edition={edition} />}
    </li>
  );
}

/** A publication as it goes to a file: without what only a list here shows. */
function withoutList({ name: _name, title: _title, steps: _steps, ...publication }: StoredPublication) {
  return publication;
}
