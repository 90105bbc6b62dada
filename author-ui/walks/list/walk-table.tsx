import { walkFlagWords } from '../../../shared/sync/hub-words.ts';
import type { WalkSummary } from '../../../shared/sync/wire/walk-wire.ts';
import { walkPageAddress } from '../../desk-route.ts';
import { confirmedWords, FLAG_WORDS, minutesWords, outcomeWords, plainName, whenWords } from '../walk-words.ts';

type WalkTableProps = {
  readonly caption: string;
  readonly walks: readonly WalkSummary[];
  readonly place: 'hub' | 'here';
  readonly remove?: (walk: string) => void;
};

/** Walks, one a line. */
export function WalkTable({ caption, walks, place, remove }: WalkTableProps) {
  return (
    <table className="walk-table">
      <caption className="unseen">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">Opened</th>
          <th scope="col">Who</th>
          <th scope="col">Site</th>
          <th scope="col">Tree</th>
          <th scope="col">Finding</th>
          <th scope="col">Outcome</th>
          <th scope="col" className="walk-number">
            Minutes
          </th>
          <th scope="col">Odd</th>
          <th scope="col">Confirmed</th>
          {remove && (
            <th scope="col">
              <span className="unseen">Remove</span>
            </th>
          )}
        </tr>
      </thead>
      <tbody>
        {walks.map((walk) => (
          <WalkLine key={walk.walk} walk={walk} place={place} remove={remove} />
        ))}
      </tbody>
    </table>
  );
}

const walkHref = (walk: string, place: 'hub' | 'here'): string => `${walkPageAddress(walk)}${place === 'here' ? '?here=yes' : ''}`;

type WalkLineProps = { readonly walk: WalkSummary; readonly place: 'hub' | 'here'; readonly remove: WalkTableProps['remove'] };

function WalkLine({ walk, place, remove }: WalkLineProps) {
  const opened = walk.opened === undefined ? 'opening not arrived' : whenWords(walk.opened);
  const who = walk.by ?? walk.personName;
  return (
    <tr>
      <th scope="row" data-label="Opened">
        <a href={walkHref(walk.walk, place)}>{opened}</a>
      </th>
      <td data-label="Who">{who === '' ? 'not told' : who}</td>
      <td data-label="Site">{walk.site ?? ''}</td>
      <td data-label="Tree">
        <span>
          {walk.title ?? (walk.tree === undefined ? '' : plainName(walk.tree))} <code>{walk.edition.slice(0, 6)}</code>
          {walk.drill && <span className="walk-mark">drill</span>}
        </span>
      </td>
      <td data-label="Finding">{walk.finding ?? ''}</td>
      <td data-label="Outcome">{walk.outcome === undefined ? (walk.closed ? '' : 'still open') : outcomeWords(walk.outcome)}</td>
      <td data-label="Minutes" className="walk-number">
        {walk.minutes === undefined ? '' : minutesWords(walk.minutes)}
      </td>
      <td data-label="Odd">
        {walk.flags.map((flag) => (
          <span key={flag} className="walk-flag" title={walkFlagWords(flag)}>
            {FLAG_WORDS[flag]}
          </span>
        ))}
      </td>
      <td data-label="Confirmed">{confirmedWords(walk)}</td>
      {remove && (
        <td className="walk-remove">
          <button type="button" className="button-plain" aria-label={`Remove the walk of ${opened}`} onClick={() => remove(walk.walk)}>
            Remove
          </button>
        </td>
      )}
    </tr>
  );
}
