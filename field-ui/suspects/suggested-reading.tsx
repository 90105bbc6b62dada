import '../step/step.css';
import { capital } from '../../shared/ui/words/plain-words.ts';
import { SuggestionLadder } from './suggestion-ladder.tsx';
import type { Suggestion } from './suspects-report.ts';
import { chanceWords, faultNames, minutesWords, setUpWords } from './suspects-words.ts';

type SuggestedReadingProps = {
  readonly suggestion: Suggestion;
  /** Minutes more than the best; absent for the best. */
  readonly over?: number | undefined;
  readonly wirings: readonly string[];
};

/** One thing to find out: why, how long, what to set up first, where the leads go, and what each outcome would leave. */
export function SuggestedReading({ suggestion, over, wirings }: SuggestedReadingProps) {
  const { title, kind, task, across, setUp, minutes, expected, reason, shows } = suggestion;
  return (
    <>
      <div className="suggestion-head">
        <p className="kicker">
          {kind === 'look' ? 'Best to look at next' : 'Best to read next'}
          {over !== undefined && `, but for one${over >= 0.5 ? ` that takes about ${minutesWords(over)} less` : ''}`}
        </p>
        <h3>{title}</h3>
        <p className="suggestion-reason">{capital(reason)}.</p>
        <p className="suggestion-minutes">
          {capital(minutesWords(minutes))} for it, about {minutesWords(Math.max(expected, minutes))} from here to the finding.
        </p>
      </div>
      {setUp.length > 0 && (
        <div className="suggestion-set-up">
          <h4>First</h4>
          <ol>
            {setUp.map((move, place) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the same move can come twice.
              <li key={place}>{setUpWords(move)}</li>
            ))}
          </ol>
          <p className="section-note">The steps that lead up to it ask for each of these, with their cautions.</p>
        </div>
      )}
      {across && (
        <>
          <p className="suggestion-task">{task}</p>
          <dl className="lead-tags">
            <div className="lead-tag lead-tag-red">
              <dt>red lead</dt>
              <dd>{across[0]}</dd>
            </div>
            <div className="lead-tag lead-tag-black">
              <dt>black lead</dt>
              <dd>{across[1]}</dd>
            </div>
          </dl>
          <SuggestionLadder suggestion={suggestion} wirings={wirings} />
        </>
      )}
      <table className="suggestion-shows">
        <caption>What it would leave</caption>
        <thead>
          <tr>
            <th scope="col">{kind === 'look' ? capital(task) : 'It shows'}</th>
            <th scope="col">Left then</th>
          </tr>
        </thead>
        <tbody>
          {shows.map(({ reading, leaves, probability }) => (
            <tr key={reading}>
              <th scope="row">
                {reading}
                <span className="suggestion-odds">{chanceWords(probability)}</span>
              </th>
              <td>
                {leaves.length > 1 && <strong>{leaves.length}: </strong>}
                {faultNames(leaves)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
