import { useState } from 'react';
import type { Edition } from '../../engine/walk/index.ts';
import { type JoinedHub, memberHub, useDeskHub } from '../crew/desk-hub.tsx';
import { HubAwayLine } from '../crew/hub-missing.tsx';
import { shelfAddress } from '../desk-route.ts';
import { Notice } from '../frame/notice.tsx';
import { useTitle } from '../frame/use-title.ts';
import { TreePages } from '../proof/tree-pages.tsx';
import { type UseProof, useProof } from '../proof/use-proof.ts';
import { treePath } from '../store/desk-file.ts';
import { useDeskFile, useDeskSnapshot } from '../store/use-desk-store.ts';
import { CrewHistory } from './crew-history.tsx';
import { EarlierEditions } from './earlier-editions.tsx';
import { Proved } from './proved.tsx';
import type { StoredPublication } from './publication-store.ts';
import { PublishForm } from './publish-form.tsx';
import { ToCrew } from './to-crew.tsx';
import { mayPublish, useCrewTree } from './use-crew-tree.ts';
import { type Publications, type ShippedEdition, usePublications, useShippedEdition } from './use-publications.ts';

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

/** The edition that changes are told from, and where it is from: published in this browser, shipped with the service, or the crew's. */
export type Former = { readonly hash: string; readonly edition: Edition; readonly from: 'desk' | 'shipped' | 'crew' };

function Publish({ name }: { readonly name: string }) {
  const hub = useDeskHub();
  const member = memberHub(hub);
  const proof = useProof(name);
  const publications = usePublications(name);
  const entry = useDeskSnapshot().editions.find((edition) => edition.name === name);
  const shipped = useShippedEdition(entry);
  const { run, stale, start } = proof;
  const shippedFormer: Former | undefined =
    shipped.state === 'there' && entry ? { hash: entry.hash, edition: shipped.edition, from: 'shipped' } : undefined;
  const given: PublishBodyProps = { name, proof, publications, shipped: shippedFormer, shippedState: shipped.state };
  return (
    <>
      {member && <HubAwayLine />}
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
        {member ? <InCrew hub={member} given={given} /> : <Alone given={given} isLooking={hub.state === 'looking'} />}
        {publications.state === 'ready' && <Earlier list={publications.list} name={name} shippedHash={entry?.hash} inCrew={member !== undefined} />}
      </article>
    </>
  );
}

type PublishBodyProps = {
  readonly name: string;
  readonly proof: UseProof;
  readonly publications: Publications;
  /** What the service ships of the tree, once it is there. */
  readonly shipped: Former | undefined;
  readonly shippedState: ShippedEdition['state'];
};

/** Publishing in this browser, without a crew. */
function Alone({ given, isLooking }: { readonly given: PublishBodyProps; readonly isLooking: boolean }) {
  const { name, proof, publications, shipped, shippedState } = given;
  const [last] = publications.state === 'ready' ? publications.list : [];
  const former: Former | undefined = last ? { hash: last.hash, edition: last.edition, from: 'desk' } : shipped;
  const isReady = !isLooking && publications.state !== 'loading' && (last !== undefined || shippedState !== 'loading');
  return (
    <Proved proof={proof} isReady={isReady}>
      {({ edition, hash, warnings }) => (
        <PublishForm
          key={`${hash} ${former?.hash}`}
          name={name}
          edition={edition}
          hash={hash}
          warnings={warnings}
          former={former}
          crewAway={!last && shippedState === 'away'}
        />
      )}
    </Proved>
  );
}

/** What every role of the crew sees: the crew's history. Who may publishes to the crew, the others in this browser. */
function InCrew({ hub, given }: { readonly hub: JoinedHub; readonly given: PublishBodyProps }) {
  const crew = useCrewTree(hub, given.name);
  const isUnknown = crew?.history.state === 'failed' && crew.history.value === undefined;
  return (
    <>
      {mayPublish(hub) && !isUnknown ? crew && <ToCrew crew={crew} {...given} /> : <Alone given={given} isLooking={false} />}
      {crew && <CrewHistory crew={crew} />}
    </>
  );
}

type EarlierProps = {
  readonly list: readonly StoredPublication[];
  readonly name: string;
  readonly shippedHash: string | undefined;
  readonly inCrew: boolean;
};

function Earlier(props: EarlierProps) {
  const [read, setRead] = useState<string>();
  return <EarlierEditions {...props} read={read} setRead={setRead} />;
}
