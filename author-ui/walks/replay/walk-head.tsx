import { walkFlagWords } from '../../../shared/sync/hub-words.ts';
import type { WalkSummary } from '../../../shared/sync/wire/walk-wire.ts';
import { pictureAddress, walksAddress } from '../../desk-route.ts';
import { confirmedWords, minutesWords, outcomeWords, plainName, whenWords } from '../walk-words.ts';

type WalkHeadProps = { readonly summary: WalkSummary; readonly place: 'hub' | 'here' };

/** What call it was. */
export function WalkHead({ summary, place }: WalkHeadProps) {
  const { title, tree, opened, site, finding, outcome, minutes, drill, flags, edition } = summary;
  const who = summary.by ?? summary.personName;
  const facts = [
    ['Who', who === '' ? 'not told' : who],
    ['Opened', opened === undefined ? 'its opening has not arrived' : whenWords(opened)],
    ['Site', site ?? 'not told'],
    ['Finding', finding ?? 'none yet'],
    ['Outcome', outcome === undefined ? 'still open' : outcomeWords(outcome)],
    ['Minutes', minutes === undefined ? '–' : minutesWords(minutes)],
    ['Confirmed', confirmedWords(summary) || '–'],
    ['Edition', edition.slice(0, 12)],
    ['From', place === 'hub' ? 'the crew’s hub' : 'a file opened here'],
  ] as const;
  return (
    <header className="walk-head">
      <p className="walk-back">
        <a href={walksAddress}>All walks</a>
        {tree !== undefined && (
          <>
            {' · '}
            <a href={pictureAddress(tree)}>What walks show of this tree</a>
          </>
        )}
      </p>
      <h1>
        {title ?? (tree === undefined ? 'Walk' : plainName(tree))}
        {drill && <span className="walk-mark">drill</span>}
      </h1>
      <dl className="walk-facts">
        {facts.map(([name, words]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      {flags.length > 0 && (
        <ul className="walk-flags" aria-label="What is odd about this log">
          {flags.map((flag) => (
            <li key={flag}>{walkFlagWords(flag)}</li>
          ))}
        </ul>
      )}
    </header>
  );
}
