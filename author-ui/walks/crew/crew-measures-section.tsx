import { useEffect, useId, useState } from 'react';
import { type CrewMeasures, LEAST_CALLS, type MeasureSummary, measureWords, type PersonSummary } from '../../../engine/review/index.ts';
import type { WalkSources } from '../source/use-walk-sources.ts';
import type { WalkFilter } from '../source/walk-filter.ts';
import { countWords } from '../walk-words.ts';
import { habitWords, meanWords, shareWords } from './crew-words.ts';
import { GatheringProgress } from './gathering-progress.tsx';
import { useGathering } from './use-gathering.ts';
import './crew-measures.css';

type CrewMeasuresSectionProps = { readonly sources: WalkSources; readonly filter: WalkFilter; readonly round: number };

/** The measures of all walks that the filter shows, of each person's, and what stands out. Begun by a press: it reviews every one of them. */
export function CrewMeasuresSection({ sources, filter, round }: CrewMeasuresSectionProps) {
  const title = useId();
  const gathering = useGathering(sources);
  const { state, now, desk, start } = gathering;
  const [measures, setMeasures] = useState<CrewMeasures>();
  const [failed, setFailed] = useState<string>();
  const [stale, setStale] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was counted is of the list as it was then.
  useEffect(() => setStale(true), [filter, round]);
  useEffect(() => {
    if (state !== 'done') return;
    let left = false;
    void desk()
      .crew(now.reviewed)
      .then((answer) => {
        if (left) return;
        if (answer.ok) setMeasures(answer.value);
        else setFailed(answer.problem);
      });
    return () => {
      left = true;
    };
  }, [state, now, desk]);
  const begin = (): void => {
    setMeasures(undefined);
    setFailed(undefined);
    setStale(false);
    start(filter, [...(sources.hub ? [sources.hub] : []), sources.here]);
  };
  return (
    <section className="crew-measures" aria-labelledby={title}>
      <h2 id={title}>These walks together</h2>
      <p className="walk-hint">
        Reviews every walk that the filter shows, drills only where the filter asks for them. People are listed by name; a few calls rank nobody.
      </p>
      {state !== 'running' && (
        <button type="button" className={measures && !stale ? 'button button-quiet' : 'button'} onClick={begin}>
          {measures ? 'Review them again' : 'Review these walks together'}
        </button>
      )}
      {state === 'stopped' && <p>Stopped. What was reviewed is kept, so the next time goes on from there.</p>}
      {state !== 'idle' && <GatheringProgress gathering={gathering} />}
      {failed !== undefined && <p role="alert">They could not be counted: {failed}</p>}
      {measures && stale && <p>The list has changed since; this is of the walks as they were then.</p>}
      {measures && <MeasuresTogether measures={measures} />}
    </section>
  );
}

function MeasuresTogether({ measures: { walks, measures, people, habits } }: { readonly measures: CrewMeasures }) {
  if (walks === 0) return <p>None of these walks could be reviewed.</p>;
  return (
    <>
      <h3>{countWords(walks, 'walk')} together</h3>
      <MeasureTable caption={`Measures of ${countWords(walks, 'walk')}`} measures={measures} defined />
      <h3>What stands out</h3>
      {habits.length === 0 ? (
        <p>Nothing beyond what chance makes of so many comparisons.</p>
      ) : (
        <ul className="crew-habits">
          {habits.map((habit) => (
            <li key={`${habit.by} ${habit.of} ${habit.step?.tree} ${habit.step?.step}`}>{habitWords(habit)}</li>
          ))}
        </ul>
      )}
      <p className="walk-hint">
        A person’s calls against all others’, only where it would come of chance in fewer than 1 in 20 such tables (Fisher’s and Welch’s tests, Holm’s
        correction). The cause may be the calls, not the person: look at some of them first.
      </p>
      <h3>By person, in the order of names</h3>
      {people.map((person) => (
        <PersonMeasures key={person.by} person={person} />
      ))}
    </>
  );
}

function PersonMeasures({ person: { by, walks, tooFew, measures } }: { readonly person: PersonSummary }) {
  const name = by === '' ? 'Name not told' : by;
  return (
    <details className="crew-person">
      <summary>
        {name}, {countWords(walks, 'walk')}
        {tooFew && <span className="walk-hint"> · too few calls to tell (fewer than {LEAST_CALLS})</span>}
      </summary>
      <MeasureTable caption={`Measures of ${name}`} measures={measures} defined={false} />
    </details>
  );
}

type MeasureTableProps = { readonly caption: string; readonly measures: readonly MeasureSummary[]; readonly defined: boolean };

function MeasureTable({ caption, measures, defined }: MeasureTableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what can be scrolled has to be reachable by keyboard.
    <section className="crew-measure-scroll" tabIndex={0} aria-label={caption}>
      <table className="crew-measure-table">
        <caption className="unseen">{caption}, with 95 % intervals</caption>
        <thead>
          <tr>
            <th scope="col">Measure</th>
            <th scope="col">Walks in which it came up</th>
            <th scope="col">Mean a walk</th>
            <th scope="col">Walks that have it</th>
          </tr>
        </thead>
        <tbody>
          {measures.map(({ code, share, mean }) => (
            <tr key={code}>
              <th scope="row">
                {measureWords(code).name}
                {defined && <span className="measure-definition">{measureWords(code).definition}</span>}
              </th>
              <td>{share && code !== 'minutes' ? shareWords(share) : ''}</td>
              <td>{mean ? meanWords(code, mean) : 'none has it'}</td>
              <td>{mean?.n ?? 0}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
