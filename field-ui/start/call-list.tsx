import { hrefOf } from '../frame/use-route.ts';
import type { StoredWalk } from '../storage/field-db.ts';
import { OUTCOME_WORDS } from '../words/outcome-words.ts';
import { momentWords } from './moment-words.ts';

/** Calls to go on with first, then those that are closed, each with the last changed on top. */
export function CallList({ walks }: { readonly walks: readonly StoredWalk[] }) {
  const open = walks.filter(({ phase }) => phase !== 'closed');
  const closed = walks.filter(({ phase }) => phase === 'closed');
  return (
    <>
      {open.length > 0 && (
        <section aria-labelledby="open-title">
          <div className="start-section-head">
            <h2 id="open-title">Open calls</h2>
          </div>
          <ul className="call-list">
            {open.map((walk) => (
              <li key={walk.id}>
                <a className="call-line call-line-open" href={hrefOf({ screen: 'walk', walk: walk.id })}>
                  <CallHead walk={walk} />
                  <span className="call-line-state">
                    {walk.step === undefined ? 'Not started' : `At: ${walk.step}`}
                    {walk.putBack > 0 && <span className="call-line-put-back">{walk.putBack} to put back</span>}
                  </span>
                  <span className="call-line-go">Go on</span>
                </a>
              </li>
            ))}
          </ul>
        </section>
      )}
      {closed.length > 0 && (
        <section aria-labelledby="closed-title">
          <div className="start-section-head">
            <h2 id="closed-title">Closed calls</h2>
          </div>
          <ul className="call-list">
            {closed.map((walk) => (
              <li key={walk.id}>
                <a className="call-line" href={hrefOf({ screen: 'report', walk: walk.id })}>
                  <CallHead walk={walk} />
                  <span className="call-line-state">
                    {walk.outcome && <strong>{OUTCOME_WORDS[walk.outcome].short}</strong>}
                    {walk.finding !== undefined && ` ${walk.finding}`}
                  </span>
                  <span className="call-line-go">Report</span>
                </a>
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

function CallHead({ walk }: { readonly walk: StoredWalk }) {
  return (
    <>
      <span className="call-line-title">{walk.site ?? walk.title}</span>
      <span className="call-line-when">
        {walk.site !== undefined && `${walk.title} · `}
        {momentWords(walk.changed, new Date())}
      </span>
    </>
  );
}
