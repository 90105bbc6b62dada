import { type ReactNode, useMemo, useState } from 'react';
import type { Edition } from '../../engine/walk/index.ts';
import { hubProblemWords } from '../../shared/sync/hub-words.ts';
import type { PublicationEntry } from '../../shared/sync/wire/edition-wire.ts';
import { HubTrouble } from '../crew/hub-trouble.tsx';
import { SureButton } from '../crew/sure-button.tsx';
import { useDeskStore } from '../store/use-desk-store.ts';
import { ChangedLines } from './changed-lines.tsx';
import { publicationWords } from './crew-publish-words.ts';
import { changesInWords } from './edition-changes.ts';
import { filesToTake } from './edition-files.ts';
import { type CrewTree, useCrewText } from './use-crew-tree.ts';

type OvertakenProps = {
  readonly crew: CrewTree;
  /** What someone else has published since. */
  readonly theirs: PublicationEntry;
  readonly mine: Edition;
  /** What both were made from, as far as that is known here. */
  readonly common: { readonly edition: Edition; readonly words: string } | undefined;
};

/** Theirs and mine, what each changed, what lies between them, and the three ways on. Nothing is lost by any of them. */
export function Overtaken({ crew, theirs, mine, common }: OvertakenProps) {
  const text = useCrewText(crew.hub, theirs.hash);
  const { happened, safe } = hubProblemWords({ code: 'overtaken', head: theirs });
  const [taken, setTaken] = useState(false);
  const store = useDeskStore();
  const edition = text.state === 'there' ? text.edition : undefined;
  const take = async (): Promise<boolean> => {
    if (!edition) return false;
    store.apply(filesToTake(edition, mine), `Take the crew’s number ${theirs.number}`);
    await crew.setBase(theirs.hash);
    setTaken(true);
    return true;
  };
  if (taken) return null;
  return (
    <section className="overtaken" aria-labelledby="overtaken-title">
      <div role="alert">
        <h2 id="overtaken-title">{crew.base === undefined ? 'The crew has its own edition of this tree' : happened}</h2>
        <p>
          {crew.base === undefined
            ? 'The tree on this desk was not made from it, as far as this desk knows. Yours is here as you left it, and theirs is published. Neither was changed.'
            : safe}
        </p>
      </div>
      {text.state === 'away' && <HubTrouble {...hubProblemWords(text.problem)} />}
      <div className="overtaken-both">
        <Side title={`Theirs: ${publicationWords(theirs)}`} about={<p>{theirs.why}</p>}>
          {edition && common ? (
            <Changes before={common.edition} now={edition} since={common.words} />
          ) : (
            <ul className="publish-changes">
              {theirs.changes.map((change) => (
                <li key={change}>{change}</li>
              ))}
            </ul>
          )}
        </Side>
        <Side title="Yours, on this desk" about={null}>
          {common ? <Changes before={common.edition} now={mine} since={common.words} /> : <p>What both were made from is not known here.</p>}
        </Side>
      </div>
      {edition && (
        <>
          <h3>From theirs to yours</h3>
          <Changes before={edition} now={mine} since={`number ${theirs.number}`} />
        </>
      )}
      <h3>Ways on</h3>
      <ul className="overtaken-ways">
        <li>
          <p>Take over by hand what you need of theirs, in Edit. Then check here again, and let yours go after theirs.</p>
        </li>
        <li>
          <p>Let yours follow theirs: the crew walks yours from then on, and what theirs has and yours has not is gone from it.</p>
          <button type="button" className="button" onClick={() => void crew.setBase(theirs.hash)}>
            Mine goes after theirs
          </button>
        </li>
        <li>
          <p>Go on from theirs. What you changed is replaced on this desk, in one step that undo takes back.</p>
          <SureButton
            text="Put theirs on this desk…"
            ask={`The tree and its benches on this desk become number ${theirs.number}. Undo on the shelf or in Edit brings yours back.`}
            sure="Put theirs here"
            keep="Leave mine"
            busy={!edition}
            onSure={take}
          />
        </li>
      </ul>
    </section>
  );
}

function Side({ title, about, children }: { readonly title: string; readonly about: ReactNode; readonly children: ReactNode }) {
  return (
    <section aria-label={title}>
      <h3>{title}</h3>
      {about}
      {children}
    </section>
  );
}

function Changes({ before, now, since }: { readonly before: Edition; readonly now: Edition; readonly since: string }) {
  const changes = useMemo(() => changesInWords(before, now), [before, now]);
  return (
    <>
      <p className="crew-hint">Since {since}:</p>
      {changes.length === 0 && <p>Nothing changed.</p>}
      <ul className="publish-changes">
        {changes.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <ChangedLines before={before} now={now} title="Line by line" />
    </>
  );
}
