import { useState } from 'react';
import type { Edition } from '../../engine/walk/index.ts';
import { shelfAddress } from '../desk-route.ts';
import { Notice } from '../frame/notice.tsx';
import { useTitle } from '../frame/use-title.ts';
import { ProblemBrief } from '../proof/problem-brief.tsx';
import { ProofProgressBar } from '../proof/proof-progress-bar.tsx';
import { TreePages } from '../proof/tree-pages.tsx';
import { type UseProof, useProof } from '../proof/use-proof.ts';
import { treePath } from '../store/desk-file.ts';
import { useDeskFile, useDeskSnapshot } from '../store/use-desk-store.ts';
import { EarlierEditions } from './earlier-editions.tsx';
import type { StoredPublication } from './publication-store.ts';
import { PublishForm } from './publish-form.tsx';
import { useCrewEdition, usePublications } from './use-publications.ts';

/** Makes an edition of a tree as it stands: checked and proved first, with who, why and what changed. */
export function PublishPage({ name }: { readonly name: string }) {
  const file = useDeskFile(treePath(name));
  useTitle(`Publish ${name}`);
  if (!file) {
    return (
      <Notice title="There is no such tree">
        <p>
          The desk has no <code>{name}.tree.mdx</code>. It may have been renamed.
        </p>
        <a className="button" href={shelfAddress}>
          Go to the shelf
        </a>
      </Notice>
    );
  }
  return <Publish key={name} name={name} />;
}

/** The edition that changes are told from, and where it is from. */
export type Former = { readonly hash: string; readonly edition: Edition; readonly from: 'desk' | 'crew' };

function Publish({ name }: { readonly name: string }) {
  const proof = useProof(name);
  const publications = usePublications(name);
  const entry = useDeskSnapshot().editions.find((edition) => edition.name === name);
  const crew = useCrewEdition(entry);
  const { run, stale, start } = proof;
  const [last] = publications.state === 'ready' ? publications.list : [];
  const former: Former | undefined = last
    ? { hash: last.hash, edition: last.edition, from: 'desk' }
    : crew.state === 'there' && entry
      ? { hash: entry.hash, edition: crew.edition, from: 'crew' }
      : undefined;
  const isReady = publications.state !== 'loading' && (last !== undefined || crew.state !== 'loading');
  return (
    <article className="publish">
      <header className="proof-head">
        <h1>{run.state === 'proved' ? run.report.title : name}</h1>
        <TreePages name={name} at="publish" />
      </header>
      {stale && run.state !== 'running' && (
        <p className="proof-stale" role="status">
          A file has changed since this was checked. What is published is what was checked.{' '}
          <button type="button" className="button" onClick={start}>
            Check again
          </button>
        </p>
      )}
      {publications.state === 'failed' && (
        <p className="proof-stale" role="alert">
          Editions published here before cannot be read from this browser's storage: {publications.detail} Files that were downloaded are as they
          were.
        </p>
      )}
      <PublishBody name={name} proof={proof} former={isReady ? former : undefined} isReady={isReady} crewAway={!last && crew.state === 'away'} />
      {publications.state === 'ready' && <Earlier list={publications.list} name={name} crewHash={entry?.hash} />}
    </article>
  );
}

type PublishBodyProps = {
  readonly name: string;
  readonly proof: UseProof;
  readonly former: Former | undefined;
  readonly isReady: boolean;
  readonly crewAway: boolean;
};

function PublishBody({ name, proof: { run, start, stop }, former, isReady, crewAway }: PublishBodyProps) {
  switch (run.state) {
    case 'running':
      return (
        <>
          <p>It is checked and proved before it can be published.</p>
          <ProofProgressBar run={run} stop={stop} />
        </>
      );
    case 'stopped':
    case 'failed':
      return (
        <section className="proof-state">
          <h2>Not checked</h2>
          <p>{run.state === 'failed' ? run.detail : 'The check was stopped.'} Only what was checked and proved is published.</p>
          <button type="button" className="button" onClick={start}>
            Check it
          </button>
        </section>
      );
    case 'not-proved':
      return <Blocked problems={run.problems} why={run.why} />;
    case 'proved': {
      if (run.report.problems.some(({ severity }) => severity === 'error')) return <Blocked problems={run.report.problems} why={undefined} />;
      if (!isReady) return <p role="status">Looking for the edition before this one…</p>;
      return (
        <PublishForm
          key={`${run.hash} ${former?.hash}`}
          name={name}
          edition={run.edition}
          hash={run.hash}
          warnings={run.report.problems}
          former={former}
          crewAway={crewAway}
        />
      );
    }
  }
}

function Blocked({
  problems,
  why,
}: {
  readonly problems: readonly Parameters<typeof ProblemBrief>[0]['problem'][];
  readonly why: string | undefined;
}) {
  const errors = problems.filter(({ severity }) => severity === 'error');
  return (
    <section className="proof-state">
      <h2>{errors.length === 1 ? '1 error stands in the way' : `${errors.length} errors stand in the way`}</h2>
      {why !== undefined && <p>{why}</p>}
      <p>A tree with errors could mislead or hurt who walks it, so it is not published. Put these right:</p>
      <ul className="proof-problems">
        {errors.map((problem) => (
          <ProblemBrief key={`${problem.file} ${problem.line} ${problem.column} ${problem.code} ${problem.message}`} problem={problem} />
        ))}
      </ul>
    </section>
  );
}

type EarlierProps = { readonly list: readonly StoredPublication[]; readonly name: string; readonly crewHash: string | undefined };

function Earlier({ list, name, crewHash }: EarlierProps) {
  const [read, setRead] = useState<string>();
  return <EarlierEditions list={list} name={name} crewHash={crewHash} read={read} setRead={setRead} />;
}
