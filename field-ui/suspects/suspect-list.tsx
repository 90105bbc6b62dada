import type { ShownSuspect, SuspectsReport } from './suspects-report.ts';
import { chanceWords, faultName, NOTHING_WRONG, percentWords, UNKNOWN, wiringWords } from './suspects-words.ts';

// As many as leave room for the suggestion on a small phone.
const FIRST = 3;

/** Every fault that is still possible as a bar with its chance, likeliest first; then that nothing is wrong, and that it is something else. */
export function SuspectList({ report }: { readonly report: SuspectsReport }) {
  const { possible, ruledOut, nothingWrong, unknown } = report;
  const first = possible.length <= FIRST + 1 ? possible : possible.slice(0, FIRST);
  const more = possible.slice(first.length);
  return (
    <div className="suspects">
      <ul className="suspect-list">
        {first.map((suspect) => (
          <SuspectLine key={suspect.fault} suspect={suspect} />
        ))}
      </ul>
      {more.length > 0 && (
        <details className="suspect-fold">
          <summary>
            {more.length} more still possible, together {chanceWords(more.reduce((sum, { probability }) => sum + probability, 0))}
          </summary>
          <ul className="suspect-list">
            {more.map((suspect) => (
              <SuspectLine key={suspect.fault} suspect={suspect} />
            ))}
          </ul>
        </details>
      )}
      <ul className="suspect-list suspect-others">
        <Chance {...NOTHING_WRONG} probability={nothingWrong} />
        <Chance {...UNKNOWN} probability={unknown} outline />
      </ul>
      {ruledOut.length > 0 && (
        <details className="suspect-fold">
          <summary>{ruledOut.length} ruled out by what was found</summary>
          <p className="section-note">
            Each is less likely than one in fifty of the first above. A reading that was wrong brings it back: read again.
          </p>
          <ul className="suspect-out">
            {ruledOut.map(({ fault, says }) => (
              <li key={fault}>
                <strong>{faultName(fault)}</strong>
                {says !== undefined && ` ${says}`}
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

function SuspectLine({ suspect }: { readonly suspect: ShownSuspect }) {
  const { fault, says, probability, wirings } = suspect;
  return <Chance name={faultName(fault)} says={says} probability={probability} only={wirings.length > 0 ? wiringWords(suspect) : undefined} />;
}

type ChanceProps = {
  readonly name: string;
  readonly says?: string | undefined;
  readonly probability: number;
  readonly only?: string | undefined;
  readonly outline?: boolean;
};

function Chance({ name, says, probability, only, outline = false }: ChanceProps) {
  const percent = percentWords(probability);
  return (
    <li className="suspect">
      <span className="suspect-name">{name}</span>
      <span className="suspect-chance">
        {chanceWords(probability)}
        {percent !== '' && <span className="suspect-percent">{percent}</span>}
      </span>
      <span className="suspect-track" aria-hidden="true">
        <span className="suspect-bar" data-outline={outline || undefined} style={{ inlineSize: `${probability * 100}%` }} />
      </span>
      {says !== undefined && <span className="suspect-says">{says}</span>}
      {only !== undefined && <span className="suspect-says">{only}</span>}
    </li>
  );
}
