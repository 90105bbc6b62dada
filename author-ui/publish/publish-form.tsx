import { type SubmitEvent, useMemo, useState } from 'react';
import type { Problem } from '../../engine/problem.ts';
import type { Edition } from '../../engine/walk/index.ts';
import type { Publication } from '../../shared/device/publication.ts';
import type { HubWords } from '../../shared/sync/hub-words.ts';
import { HubTrouble } from '../crew/hub-trouble.tsx';
import { keepName, keptName } from '../crew/kept-name.ts';
import { ProblemBrief } from '../proof/problem-brief.tsx';
import { ChangedLines } from './changed-lines.tsx';
import { EditionActions } from './edition-actions.tsx';
import { changesInWords } from './edition-changes.ts';
import { notKeptWords } from './not-kept-words.ts';
import { keepPublication } from './publication-store.ts';
import type { Former } from './publish-page.tsx';
import { publicationDb } from './use-publications.ts';

type PublishFormProps = {
  readonly name: string;
  readonly edition: Edition;
  readonly hash: string;
  readonly warnings: readonly Problem[];
  readonly former: Former | undefined;
  /** There is an edition of the crew's, and it could not be fetched to compare with. */
  readonly crewAway: boolean;
  /** The tree as it stands was published to the crew and taken back: who, and why. */
  readonly takenBack?: string;
  /** Publishing to the crew; left out where this desk is in none or may not. */
  readonly crew?: CrewPublishing;
};

/** What the form hands on for the crew; resolves with why it was not published, if it was not. */
export type CrewPublishing = {
  /** Who publishes, as the hub knows them. */
  readonly byName: string;
  /** Someone else's edition came in between, and it is not decided yet how this one stands to it. */
  readonly isOvertaken: boolean;
  readonly publish: (said: {
    readonly why: string;
    readonly changes: readonly string[];
    readonly accepted: Readonly<Record<string, string>>;
  }) => Promise<HubWords | undefined>;
};

const SAME: Readonly<Record<Former['from'], string>> = {
  desk: ', published here already.',
  shipped: ', which the service gives already.',
  crew: ', which the crew has already.',
};

const OF: Readonly<Record<Former['from'], string>> = { desk: '', shipped: ' of the service', crew: ' of the crew' };

/** Who, why, what changed, and a reason for each kind of warning that is let stand. */
export function PublishForm({ name, edition, hash, warnings, former, crewAway, takenBack, crew }: PublishFormProps) {
  const [typedBy, setTypedBy] = useState(keptName);
  const by = crew?.byName ?? typedBy;
  const [why, setWhy] = useState('');
  const [reasons, setReasons] = useState<Readonly<Record<string, string>>>({});
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const [unkept, setUnkept] = useState<{ readonly publication: Publication; readonly why: string }>();
  const changes = useMemo(() => (former ? changesInWords(former.edition, edition) : []), [former, edition]);
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState<HubWords>();
  const codes = [...new Set(warnings.map(({ code }) => code))];

  if (takenBack !== undefined) {
    return (
      <section className="publish-same">
        <h2>It was taken back</h2>
        <p>{takenBack}</p>
        <p>It cannot be published again as it is. Change the tree or a bench, and the next edition is made here.</p>
      </section>
    );
  }
  if (former?.hash === hash) {
    return (
      <section className="publish-same">
        <h2>Nothing has changed</h2>
        <p>
          The tree as it stands is edition <code>{hash.slice(0, 12)}</code>
          {SAME[former.from]} Change the tree or a bench, and the next edition is made here.
        </p>
        {former.from !== 'desk' && <EditionActions publication={{ hash, edition }} name={name} />}
      </section>
    );
  }

  /** Whether all that an edition is published with has been said; what has not is told. */
  const isSaid = (): boolean => {
    const missing = [
      ...(by.trim() === '' ? ['Say who publishes it.'] : []),
      ...(why.trim() === '' ? ['Say why: what it is for, or what this edition puts right.'] : []),
      ...codes.filter((code) => (reasons[code] ?? '').trim() === '').map((code) => `Say why “${code}” can stand, or put it right first.`),
    ];
    setWrong(missing);
    return missing.length === 0;
  };
  const told = (): readonly string[] => (former ? [...changes] : ['The first edition.']);
  const accepted = (): Readonly<Record<string, string>> => Object.fromEntries(codes.map((code) => [code, (reasons[code] ?? '').trim()]));

  const publish = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!crew) {
      await publishHere();
      return;
    }
    if (crew.isOvertaken || busy || !isSaid()) return;
    setBusy(true);
    setRefused(undefined);
    setRefused(await crew.publish({ why: why.trim(), changes: told(), accepted: accepted() }));
    setBusy(false);
  };
  const publishHere = async (): Promise<void> => {
    if (!isSaid()) return;
    keepName(by.trim());
    const publication: Publication = {
      format: 'ohmward-publication/1',
      hash,
      by: by.trim(),
      why: why.trim(),
      at: new Date().toISOString(),
      ...(former && { since: former.hash }),
      changes: [...told()],
      accepted: accepted(),
      edition,
    };
    setUnkept(undefined);
    try {
      await keepPublication(publicationDb, publication);
    } catch (error) {
      setUnkept({ publication, why: notKeptWords(error) });
    }
  };

  return (
    <form className="publish-form" onSubmit={publish} noValidate>
      <section aria-labelledby="changes-title">
        <h2 id="changes-title">What changed</h2>
        {!former && (
          <p>
            {crewAway
              ? 'The crew has an edition of this tree, and the service does not answer, so there is nothing to compare with now. You can publish all the same; it is then told as a first edition.'
              : 'This is the first edition.'}
          </p>
        )}
        {former && (
          <>
            <p>
              Since edition <code>{former.hash.slice(0, 12)}</code>
              {OF[former.from]}:
            </p>
            <ul className="publish-changes">
              {changes.map((text) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
            <ChangedLines before={former.edition} now={edition} title="Line by line" />
          </>
        )}
      </section>
      {codes.length > 0 && (
        <section aria-labelledby="warnings-title">
          <h2 id="warnings-title">{warnings.length === 1 ? '1 warning' : `${warnings.length} warnings`}: say why they can stand</h2>
          {codes.map((code) => (
            <div key={code} className="publish-warning">
              <ul className="proof-problems">
                {warnings
                  .filter((problem) => problem.code === code)
                  .map((problem) => (
                    <ProblemBrief key={`${problem.file} ${problem.line} ${problem.column} ${problem.message}`} problem={problem} />
                  ))}
              </ul>
              <label className="publish-field">
                Why “{code}” can stand
                <input value={reasons[code] ?? ''} onChange={(event) => setReasons({ ...reasons, [code]: event.target.value })} />
              </label>
            </div>
          ))}
        </section>
      )}
      <section aria-labelledby="who-title">
        <h2 id="who-title">Who and why</h2>
        {crew ? (
          <p>
            Published as <strong>{crew.byName}</strong>.
          </p>
        ) : (
          <label className="publish-field">
            Who publishes it
            <input value={typedBy} maxLength={200} autoComplete="name" onChange={(event) => setTypedBy(event.target.value)} />
          </label>
        )}
        <label className="publish-field">
          Why
          <textarea value={why} rows={3} maxLength={4000} onChange={(event) => setWhy(event.target.value)} />
        </label>
        {wrong.length > 0 && (
          <div className="entry-wrong" role="alert">
            <ul>
              {wrong.map((text) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          </div>
        )}
        {unkept && (
          <div role="alert" className="proof-stale">
            <p>
              The edition is made and is not stored: {unkept.why} Download it now, so that it is not lost, or make room and publish again. The desk's
              files are as they were.
            </p>
            <EditionActions publication={unkept.publication} name={name} />
          </div>
        )}
        {refused && <HubTrouble {...refused} />}
        {crew?.isOvertaken && <p>Say above how yours stands to theirs. What you have entered here stays.</p>}
        <p className="publish-go">
          <button type="submit" className="button" disabled={busy || crew?.isOvertaken === true}>
            {crew ? (busy ? 'Publishing…' : 'Publish to the crew') : 'Publish'}
          </button>{' '}
          {crew && (
            <button type="button" className="button button-quiet" onClick={() => void publishHere()}>
              Only in this browser
            </button>
          )}{' '}
          as edition <code>{hash.slice(0, 12)}</code>
        </p>
      </section>
    </form>
  );
}
