import { type SubmitEvent, useMemo, useState } from 'react';
import type { Problem } from '../../engine/problem.ts';
import type { Edition } from '../../engine/walk/index.ts';
import type { Publication } from '../../shared/device/publication.ts';
import { ProblemBrief } from '../proof/problem-brief.tsx';
import { EditionActions } from './edition-actions.tsx';
import { changesInLines, changesInWords } from './edition-changes.ts';
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
};

const KEPT_NAME = 'ohmward-desk-name';

function keptName(): string {
  try {
    return localStorage.getItem(KEPT_NAME) ?? '';
  } catch {
    return '';
  }
}

function keepName(name: string): void {
  try {
    localStorage.setItem(KEPT_NAME, name);
  } catch {
    // Only a convenience: it is typed again next time.
  }
}

/** Who, why, what changed, and a reason for each kind of warning that is let stand. */
export function PublishForm({ name, edition, hash, warnings, former, crewAway }: PublishFormProps) {
  const [by, setBy] = useState(keptName);
  const [why, setWhy] = useState('');
  const [reasons, setReasons] = useState<Readonly<Record<string, string>>>({});
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const [unkept, setUnkept] = useState<{ readonly publication: Publication; readonly why: string }>();
  const changes = useMemo(() => (former ? changesInWords(former.edition, edition) : []), [former, edition]);
  const lines = useMemo(() => (former ? changesInLines(former.edition, edition) : []), [former, edition]);
  const codes = [...new Set(warnings.map(({ code }) => code))];

  if (former?.hash === hash) {
    return (
      <section className="publish-same">
        <h2>Nothing has changed</h2>
        <p>
          The tree as it stands is edition <code>{hash.slice(0, 12)}</code>
          {former.from === 'desk' ? ', published here already.' : ", which the crew's service gives already."} Change the tree or a bench, and the
          next edition is made here.
        </p>
        {former.from === 'crew' && <EditionActions publication={{ hash, edition }} name={name} />}
      </section>
    );
  }

  const publish = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const missing = [
      ...(by.trim() === '' ? ['Say who publishes it.'] : []),
      ...(why.trim() === '' ? ['Say why: what it is for, or what this edition puts right.'] : []),
      ...codes.filter((code) => (reasons[code] ?? '').trim() === '').map((code) => `Say why “${code}” can stand, or put it right first.`),
    ];
    setWrong(missing);
    if (missing.length > 0) return;
    keepName(by.trim());
    const publication: Publication = {
      format: 'ohmward-publication/1',
      hash,
      by: by.trim(),
      why: why.trim(),
      at: new Date().toISOString(),
      ...(former && { since: former.hash }),
      changes: former ? [...changes] : ['The first edition.'],
      accepted: Object.fromEntries(codes.map((code) => [code, (reasons[code] ?? '').trim()])),
      edition,
    };
    setUnkept(undefined);
    try {
      await keepPublication(publicationDb, publication);
    } catch (error) {
      setUnkept({ publication, why: notKeptWords(error) });
      return;
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
              {former.from === 'crew' && " of the crew's service"}:
            </p>
            <ul className="publish-changes">
              {changes.map((text) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
            <details>
              <summary>Line by line</summary>
              {lines.map((changed) => (
                <ChangedLines key={changed.file} {...changed} />
              ))}
            </details>
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
        <label className="publish-field">
          Who publishes it
          <input value={by} maxLength={200} autoComplete="name" onChange={(event) => setBy(event.target.value)} />
        </label>
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
        <p className="publish-go">
          <button type="submit" className="button">
            Publish
          </button>{' '}
          as edition <code>{hash.slice(0, 12)}</code>
        </p>
      </section>
    </form>
  );
}

function ChangedLines({ file, lines }: { readonly file: string; readonly lines: readonly string[] }) {
  return (
    <section className="publish-lines" aria-label={file}>
      <h3>
        <code>{file}</code>
      </h3>
      <pre>
        {lines.map((line, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a line is known by its place.
          <span key={index} className={line.startsWith('+') ? 'line-new' : line.startsWith('-') ? 'line-gone' : undefined}>
            {`${line}\n`}
          </span>
        ))}
      </pre>
    </section>
  );
}
