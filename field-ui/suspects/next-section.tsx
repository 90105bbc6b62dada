import { useState } from 'react';
import { capital } from '../../shared/ui/words/plain-words.ts';
import { useSession } from '../walk/use-session.ts';
import { GoingThere } from './going-there.tsx';
import { SuggestedReading } from './suggested-reading.tsx';
import type { AdviceReport, Suggestion, SuspectsReport } from './suspects-report.ts';
import { chanceWords, faultNames, minutesWords, setUpWords } from './suspects-words.ts';

type NextSectionProps = {
  readonly report: SuspectsReport;
  readonly advice: AdviceReport | undefined;
  readonly stale: boolean;
  readonly onGone: () => void;
};

const RITUAL: ReadonlySet<string> = new Set(['repair', 'put-back', 'recheck', 'closing']);

/** What to find out next, or the finding that is left. */
export function NextSection({ report, advice, stale, onGone }: NextSectionProps) {
  const { view } = useSession();
  const [chosen, setChosen] = useState<string>();
  if (view.phase === 'closed') return null;
  if (RITUAL.has(view.phase))
    return <p className="section-note">The finding is made. If the complaint comes back at the recheck, the next thing to read is told here.</p>;
  if (!advice)
    return (
      <p className="suggestion-waiting" role="status">
        Working out what to read next…
      </p>
    );
  const [best] = advice.suggestions;
  const shown = advice.suggestions.find(({ key }) => key === chosen) ?? best;
  if (!shown || !best) return <FindingLeft advice={advice} stale={stale} onGone={onGone} />;
  const wirings = report.wirings.map(({ bench }) => bench);
  const others = advice.suggestions.filter((one) => one !== shown);
  return (
    <>
      <section className="suggestion" aria-label="What to find out next" aria-busy={stale}>
        <SuggestedReading suggestion={shown} over={shown === best ? undefined : shown.expected - best.expected} wirings={wirings} />
        {shown.to?.way === 'jump' && (
          <p className="section-note">Going there leaves the tree’s order. The log keeps it as a jump, and the way back stays open.</p>
        )}
        {others.length > 0 && <Others others={others} method={advice.method} onChoose={setChosen} />}
      </section>
      {view.phase === 'opening' ? (
        <p className="section-note">Start the call first: then it can be gone to from here.</p>
      ) : (
        <GoingThere to={shown.to} title={shown.title} why={shown.reason} stale={stale} onGone={onGone} />
      )}
    </>
  );
}

type OthersProps = { readonly others: readonly Suggestion[]; readonly method: AdviceReport['method']; readonly onChoose: (key: string) => void };

function Others({ others, method, onChoose }: OthersProps) {
  return (
    <details className="suspect-fold">
      <summary>{others.length === 1 ? '1 other thing' : `${others.length} other things`} to find out</summary>
      <ul className="other-readings">
        {others.map(({ key, title, reason, expected, setUp }) => (
          <li key={key}>
            <button type="button" className="other-reading" onClick={() => onChoose(key)}>
              <span className="other-title">{title}</span>
              <span className="other-minutes">{minutesWords(expected)} to go</span>
              <span className="other-reason">
                {capital(reason)}
                {setUp.length > 0 && `. First: ${setUp.map(setUpWords).join('; ')}`}
              </span>
            </button>
          </li>
        ))}
      </ul>
      <p className="section-note">
        {method === 'exact'
          ? 'Every order was tried to its end for these minutes.'
          : 'The minutes are estimates: there are too many orders to try them all.'}
      </p>
    </details>
  );
}

/** Nothing in the tree tells what is left apart. */
function FindingLeft({ advice, stale, onGone }: { readonly advice: AdviceReport; readonly stale: boolean; readonly onGone: () => void }) {
  const { finding, left } = advice;
  if (!finding)
    return (
      <section className="suggestion" aria-label="What to find out next">
        <h3>Nothing in this tree tells more</h3>
        <p>
          {left.length > 0 && `Left by what it knows: ${faultNames(left, 5)}. But `}
          {left.length > 0 ? 'it' : 'It'} is likely something that this bench does not know. Read once more what does not fit, and call before
          changing a part.
        </p>
      </section>
    );
  const { to, faults, probability } = finding;
  return (
    <>
      <section className="suggestion" aria-label="What to find out next" aria-busy={stale}>
        <div className="suggestion-head">
          <p className="kicker">Found, as far as this tree can tell</p>
          <h3>{to.title}</h3>
          <p className="suggestion-reason">
            {faults.length > 1
              ? `Nothing in this tree tells these apart: ${faultNames(faults, 5)}.`
              : 'No other reading of this tree would tell more.'}{' '}
            {capital(chanceWords(probability))}.
          </p>
        </div>
      </section>
      <GoingThere to={to} title={to.title} why="nothing more to tell apart" stale={stale} onGone={onGone} />
    </>
  );
}
