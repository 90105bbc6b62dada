import { useCallback, useId, useMemo, useState } from 'react';
import type { Bench } from '../../../engine/bench/index.ts';
import type { ConfirmRequest } from '../../../shared/sync/wire/review-wire.ts';
import { HubTrouble } from '../../crew/hub-trouble.tsx';
import { useLoaded } from '../source/use-loaded.ts';
import type { SourceProblem, WalkSource } from '../source/walk-source.ts';
import { sourceProblemWords, whenWords } from '../walk-words.ts';
import { type ConfirmChoice, confirmRequest, faultOffers, NOTHING_CHOSEN, saidWords } from './confirm-choice.ts';

type ConfirmFindingProps = {
  readonly walk: string;
  readonly source: WalkSource;
  readonly finding: { readonly title: string; readonly faults: readonly string[] };
  readonly benches: Readonly<Record<string, Bench>>;
  /** The bench that the site was, as far as the walk knew. */
  readonly bench: string | undefined;
  readonly changed: () => void;
};

/** Says afterwards what a finding was worth, and shows all that was said. */
export function ConfirmFinding({ walk, source, finding, benches, bench, changed }: ConfirmFindingProps) {
  const title = useId();
  const [choice, setChoice] = useState<ConfirmChoice>(NOTHING_CHOSEN);
  const [wrong, setWrong] = useState<'choose' | 'choose-fault'>();
  const [problem, setProblem] = useState<SourceProblem>();
  const [busy, setBusy] = useState(false);
  const said = useLoaded(useCallback(() => source.said(walk), [source, walk]));
  const offers = useMemo(() => faultOffers(benches, bench), [benches, bench]);
  const say = async (request: ConfirmRequest): Promise<void> => {
    setBusy(true);
    try {
      const answer = await source.say(walk, request);
      setProblem(answer.ok ? undefined : answer.problem);
      if (!answer.ok) return;
      // What was chosen stays until it stands in the list.
      await said.again();
      setChoice(NOTHING_CHOSEN);
      changed();
    } finally {
      setBusy(false);
    }
  };
  const submit = (): void => {
    const request = confirmRequest(choice, finding.faults, bench);
    if (typeof request === 'string') {
      setWrong(request);
      return;
    }
    setWrong(undefined);
    void say(request);
  };
  const entries = said.value ?? [];
  const holds = entries[0]?.held !== undefined;
  return (
    <section className="walk-confirm" aria-labelledby={title}>
      <h2 id={title}>Did the finding hold?</h2>
      <p>
        The walk found <strong>{finding.title}</strong>. What is learnt of it later is kept beside the walk; the log is never changed.
      </p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          submit();
        }}
      >
        <fieldset>
          <legend className="unseen">What was learnt</legend>
          <Way how="held" choice={choice} set={setChoice} words="It held: the complaint stayed away" />
          <Way how="came-back" choice={choice} set={setChoice} words="It came back, the cause is not known" />
          {offers.length > 0 && <Way how="other" choice={choice} set={setChoice} words="It was another fault" />}
        </fieldset>
        {choice.how === 'other' && (
          <label className="walk-field">
            Which fault it was
            <select value={choice.fault} onChange={(event) => setChoice({ ...choice, fault: event.target.value })}>
              <option value="">choose one</option>
              {[...new Set(offers.map(({ bench: of }) => of))].map((of) => (
                <optgroup key={of} label={benches[of]?.title ?? of}>
                  {offers
                    .filter((offer) => offer.bench === of)
                    .map(({ key, words }) => (
                      <option key={key} value={key}>
                        {words}
                      </option>
                    ))}
                </optgroup>
              ))}
            </select>
          </label>
        )}
        <label className="walk-field">
          Note, if there is something to say
          <textarea rows={2} maxLength={500} value={choice.note} onChange={(event) => setChoice({ ...choice, note: event.target.value })} />
        </label>
        {wrong && (
          <p role="alert" className="walk-wrong">
            {wrong === 'choose' ? 'Choose first what was learnt. Nothing was kept yet.' : 'Choose which fault it was. Nothing was kept yet.'}
          </p>
        )}
        {problem && <HubTrouble {...sourceProblemWords(problem)} />}
        <div className="walk-buttons">
          <button type="submit" className="button" disabled={busy}>
            {busy ? 'Keeping it…' : 'Keep this'}
          </button>
          {holds && (
            <button type="button" className="button button-quiet" disabled={busy} onClick={() => void say({})}>
              Take back what was said
            </button>
          )}
        </div>
      </form>
      {said.problem && said.problem.code !== 'not-kept' && <HubTrouble {...sourceProblemWords(said.problem)} />}
      {entries.length > 0 && (
        <ol className="walk-said" aria-label="What was said, the latest first">
          {entries.map((entry) => (
            <li key={`${entry.at} ${entry.held} ${entry.fault} ${entry.note}`}>
              <time dateTime={entry.at}>{whenWords(entry.at)}</time> {entry.personName !== '' && <strong>{entry.personName}</strong>}{' '}
              {saidWords(entry, benches)} {entry.note !== undefined && <q>{entry.note}</q>}
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}

type WayProps = {
  readonly how: NonNullable<ConfirmChoice['how']>;
  readonly choice: ConfirmChoice;
  readonly set: (choice: ConfirmChoice) => void;
  readonly words: string;
};

function Way({ how, choice, set, words }: WayProps) {
  return (
    <label>
      <input type="radio" name="walk-held" checked={choice.how === how} onChange={() => set({ ...choice, how })} /> {words}
    </label>
  );
}
