import { type SubmitEvent, useState } from 'react';
import { hubProblemWords } from '../../shared/sync/hub-words.ts';
import type { PublicationEntry } from '../../shared/sync/wire/edition-wire.ts';
import { momentWords } from '../crew/crew-page-words.ts';
import { AskedTrouble, HubTrouble } from '../crew/hub-trouble.tsx';
import { useDeed } from '../crew/use-asked.ts';
import { withdrawnWords } from './crew-publish-words.ts';
import { EditionActions } from './edition-actions.tsx';
import { EditionReasons } from './edition-reasons.tsx';
import { EditionText } from './edition-text.tsx';
import { type CrewTree, mayPublish, useCrewText } from './use-crew-tree.ts';

/** Everything that the crew has published of a tree, the latest first: who, why, what changed. Who may publish may take back. */
export function CrewHistory({ crew }: { readonly crew: CrewTree }) {
  const { history, head } = crew;
  const [read, setRead] = useState<string>();
  const [back, setBack] = useState<{ readonly number: number; readonly asked: 'open' | 'done' }>();
  const list = history.value ?? [];
  return (
    <section className="editions" aria-labelledby="crew-editions-title">
      <h2 id="crew-editions-title">The crew’s editions</h2>
      <AskedTrouble asked={history} what="the crew’s editions" />
      {history.state === 'ready' && list.length === 0 && (
        <p>Nobody has published this tree to the crew. The phones walk the edition that comes with this copy of Ohmward, if there is one.</p>
      )}
      <p role="status" className="publish-told">
        {back?.asked === 'done' && withdrawnWords(back.number, head)}
      </p>
      <ol>
        {list.map((entry) => (
          <CrewEdition
            key={entry.number}
            crew={crew}
            entry={entry}
            isCurrent={entry.number === head?.number}
            isOpen={read === entry.hash}
            setOpen={(opens) => setRead(opens ? entry.hash : undefined)}
            takesBack={back?.asked === 'open' && back.number === entry.number}
            setTakesBack={(takes) => setBack(takes ? { number: entry.number, asked: 'open' } : undefined)}
            onTakenBack={() => setBack({ number: entry.number, asked: 'done' })}
          />
        ))}
      </ol>
    </section>
  );
}

type CrewEditionProps = {
  readonly crew: CrewTree;
  readonly entry: PublicationEntry;
  readonly isCurrent: boolean;
  readonly isOpen: boolean;
  readonly setOpen: (opens: boolean) => void;
  readonly takesBack: boolean;
  readonly setTakesBack: (takes: boolean) => void;
  readonly onTakenBack: () => void;
};

function CrewEdition({ crew, entry, isCurrent, isOpen, setOpen, takesBack, setTakesBack, onTakenBack }: CrewEditionProps) {
  const { hash, number, byName, at, steps, why, changes, accepted, withdrawn } = entry;
  return (
    <li className="edition">
      <div className="edition-head">
        <p>
          <strong>Number {number}</strong> by <strong>{byName}</strong>, <time dateTime={at}>{momentWords(at)}</time>, {steps} steps,{' '}
          <code>{hash.slice(0, 12)}</code>
          {isCurrent && <strong className="edition-current">walked now</strong>}
        </p>
        <span>
          <button
            type="button"
            className="button button-quiet"
            aria-expanded={isOpen}
            aria-label={`Read number ${number} of the crew`}
            onClick={() => setOpen(!isOpen)}
          >
            Read
          </button>{' '}
          {mayPublish(crew.hub) && !withdrawn && (
            <button
              type="button"
              className="button button-quiet"
              aria-expanded={takesBack}
              aria-label={`Take back number ${number}`}
              onClick={() => setTakesBack(!takesBack)}
            >
              Take back…
            </button>
          )}
        </span>
      </div>
      {withdrawn && (
        <p className="edition-back">
          <strong>Taken back</strong> by {withdrawn.by}, {momentWords(withdrawn.at)}: {withdrawn.why}
        </p>
      )}
      {takesBack && <TakeBack crew={crew} entry={entry} onDone={onTakenBack} onKeep={() => setTakesBack(false)} />}
      <EditionReasons why={why} changes={changes} accepted={accepted} />
      {isOpen && <CrewEditionText crew={crew} entry={entry} />}
    </li>
  );
}

function CrewEditionText({ crew, entry: { hash, name } }: { readonly crew: CrewTree; readonly entry: PublicationEntry }) {
  const text = useCrewText(crew.hub, hash);
  if (text.state === 'away') return <HubTrouble {...hubProblemWords(text.problem)} />;
  if (text.state !== 'there') return <p role="status">Asking the hub for it…</p>;
  return (
    <>
      <EditionActions publication={{ hash, edition: text.edition }} name={name} />
      <EditionText hash={hash} edition={text.edition} />
    </>
  );
}

type TakeBackProps = { readonly crew: CrewTree; readonly entry: PublicationEntry; readonly onDone: () => void; readonly onKeep: () => void };

function TakeBack({ crew, entry: { hash, number }, onDone, onKeep }: TakeBackProps) {
  const deed = useDeed();
  const [why, setWhy] = useState('');
  const takeBack = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (why.trim() === '' || deed.busy) return;
    const done = await deed.run(async () => {
      const answer = await crew.hub.client.withdraw(hash, why.trim());
      // Until the history has it, what stands beside it would say that it is walked still.
      if (answer.ok) await crew.history.again();
      return answer;
    });
    if (done) onDone();
  };
  return (
    <form className="take-back" onSubmit={takeBack}>
      <p>
        No new call opens on number {number} then. Who is walking it is told why and decides; it stays readable for calls that were walked on it. It
        cannot be published again as it is.
      </p>
      <label className="publish-field">
        Why it is taken back
        <textarea
          // biome-ignore lint/a11y/noAutofocus: the button that opened this form asked for it.
          autoFocus
          value={why}
          required
          rows={2}
          maxLength={2000}
          onChange={(event) => setWhy(event.target.value)}
        />
      </label>
      <button type="button" className="button button-quiet" onClick={onKeep}>
        Keep it
      </button>{' '}
      <button type="submit" className="button" disabled={deed.busy}>
        {deed.busy ? 'Taking back…' : `Take number ${number} back`}
      </button>
      {deed.problem && <HubTrouble {...hubProblemWords(deed.problem)} />}
    </form>
  );
}
