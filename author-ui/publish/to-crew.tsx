import { useEffect, useRef, useState } from 'react';
import type { Edition } from '../../engine/walk/index.ts';
import { type HubWords, hubProblemWords } from '../../shared/sync/hub-words.ts';
import { HubTrouble } from '../crew/hub-trouble.tsx';
import type { UseProof } from '../proof/use-proof.ts';
import { publishedWords, takenBackWords } from './crew-publish-words.ts';
import { Overtaken } from './overtaken.tsx';
import { overtaking } from './overtaking.ts';
import { Proved, type ProvedTree } from './proved.tsx';
import { type CrewPublishing, PublishForm } from './publish-form.tsx';
import type { Former } from './publish-page.tsx';
import { type CrewTree, useCrewText } from './use-crew-tree.ts';
import type { ShippedEdition } from './use-publications.ts';

type ToCrewProps = {
  readonly crew: CrewTree;
  readonly name: string;
  readonly proof: UseProof;
  readonly shipped: Former | undefined;
  readonly shippedState: ShippedEdition['state'];
};

/** Publishing to the crew: after what the tree was made from, and after someone else's only on purpose. */
export function ToCrew({ crew, name, proof, shipped, shippedState }: ToCrewProps) {
  const { hub, history, head, base } = crew;
  const before = useCrewText(hub, base);
  const [told, setTold] = useState<number>();
  const list = history.value ?? [];
  const former: Former | undefined =
    before.state === 'there' ? { hash: before.hash, edition: before.edition, from: 'crew' } : base === undefined ? shipped : undefined;
  const isReady = history.value !== undefined && before.state !== 'asking' && (base !== undefined || shippedState !== 'loading');
  // What was typed stays while another edition to compare with is fetched.
  const wasReady = useRef(false);
  wasReady.current ||= isReady;
  return (
    <>
      {before.state === 'away' && <HubTrouble {...hubProblemWords(before.problem)} />}
      <p role="status" className="publish-told">
        {told !== undefined && !list.some(({ number, withdrawn }) => number === told && withdrawn) && publishedWords(told)}
      </p>
      <Proved proof={proof} isReady={isReady || wasReady.current}>
        {(tree) => {
          const theirs = overtaking(list, base, tree.hash);
          const isCurrent = head?.hash === tree.hash;
          const back = isCurrent ? undefined : list.find(({ hash, withdrawn }) => hash === tree.hash && withdrawn);
          return (
            <>
              {isCurrent && base !== tree.hash && <KeepBase crew={crew} hash={tree.hash} />}
              {theirs && <Overtaken crew={crew} theirs={theirs} mine={tree.edition} common={commonOf(former)} />}
              <PublishForm
                key={tree.hash}
                name={name}
                edition={tree.edition}
                hash={tree.hash}
                warnings={tree.warnings}
                former={isCurrent ? { hash: tree.hash, edition: tree.edition, from: 'crew' } : former}
                crewAway={before.state === 'away'}
                {...(back && { takenBack: takenBackWords(back) })}
                crew={publishing(crew, tree, shipped, theirs !== undefined || before.state === 'asking', setTold)}
              />
            </>
          );
        }}
      </Proved>
    </>
  );
}

const commonOf = (former: Former | undefined): { readonly edition: Edition; readonly words: string } | undefined =>
  former && { edition: former.edition, words: former.from === 'crew' ? 'what yours was made from' : 'the edition that comes with this copy' };

/** What the desk makes is what the crew has: from here on it is what the tree was made from. */
function KeepBase({ crew: { setBase }, hash }: { readonly crew: CrewTree; readonly hash: string }) {
  useEffect(() => void setBase(hash), [setBase, hash]);
  return null;
}

function publishing(
  crew: CrewTree,
  { edition, hash }: ProvedTree,
  shipped: Former | undefined,
  isOvertaken: boolean,
  onPublished: (number: number) => void,
): CrewPublishing {
  const { hub, history, base } = crew;
  // A tree that nobody has published follows what comes with this copy, so that both are known later.
  const basedOn = base ?? (history.value?.length === 0 ? shipped?.hash : undefined);
  return {
    byName: hub.me.person.name,
    isOvertaken,
    async publish({ why, changes, accepted }): Promise<HubWords | undefined> {
      const request = { hash, edition, why, changes: [...changes], accepted: { ...accepted } };
      const first = await hub.client.publish({ ...request, ...(basedOn !== undefined && { basedOn }) });
      // The hub has none of what ships. Asked without a base it says what it does have; it takes nothing in this way but a first publication.
      const answer = first.ok || first.problem.code !== 'base-unknown' ? first : await hub.client.publish(request);
      if (answer.ok) {
        onPublished(answer.value.publication.number);
        await crew.notePublished(answer.value.publication);
        return undefined;
      }
      if (answer.problem.code === 'overtaken') {
        // What came in between is told where it is shown.
        await history.again();
        return undefined;
      }
      hub.noticeRefusal(answer.problem);
      return hubProblemWords(answer.problem);
    },
  };
}
