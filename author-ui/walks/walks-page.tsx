import { useCallback, useMemo, useState } from 'react';
import { success } from '../../engine/result.ts';
import { hubProblemWords } from '../../shared/sync/hub-words.ts';
import type { WalkSummary } from '../../shared/sync/wire/walk-wire.ts';
import { memberHub, useDeskHub } from '../crew/desk-hub.tsx';
import { HubTrouble } from '../crew/hub-trouble.tsx';
import { useAgainWhenBack } from '../crew/use-again-when-back.ts';
import type { ChosenFile } from '../data/read-chosen.ts';
import { guideAddress, joinAddress, walksAddress } from '../desk-route.ts';
import { useTitle } from '../frame/use-title.ts';
import { CrewMeasuresSection } from './crew/crew-measures-section.tsx';
import { FilterForm } from './list/filter-form.tsx';
import { OpenFilesButton } from './list/open-files-button.tsx';
import { useFilterChoices } from './list/use-filter-choices.ts';
import { usePages } from './list/use-pages.ts';
import { WalkTable } from './list/walk-table.tsx';
import { type KeptFiles, keepOpened } from './source/keep-opened.ts';
import { stored } from './source/stored.ts';
import { replaceQuery, useQuery } from './source/use-query.ts';
import { useWalkSources, walksDb } from './source/use-walk-sources.ts';
import { filterQuery, readFilter, type WalkFilter } from './source/walk-filter.ts';
import { removeKept, type SourceProblem, type WalkSource } from './source/walk-source.ts';
import { countWords, keptFilesWords, sourceProblemWords } from './walk-words.ts';
import './review/review.css';
import './walks.css';

/** The crew's calls, and those opened from files: found, filtered, and looked at together. */
export function WalksPage() {
  useTitle('Walks');
  const query = useQuery();
  const filter = useMemo(() => readFilter(query), [query]);
  const sources = useWalkSources();
  const [round, setRound] = useState(0);
  const [opening, setOpening] = useState(false);
  const [kept, setKept] = useState<KeptFiles>();
  const [trouble, setTrouble] = useState<SourceProblem>();
  const local = usePages(sources.here, filter, round);
  const hub = usePages(sources.hub, filter, round);
  useAgainWhenBack(sources.hub !== undefined && hub.state === 'failed', hub.again);
  const loaded = useMemo(() => [...hub.walks, ...local.walks], [hub.walks, local.walks]);
  const choices = useFilterChoices(loaded);
  const change = useCallback((next: WalkFilter) => replaceQuery(walksAddress, filterQuery(next)), []);
  const open = async (files: readonly ChosenFile[]): Promise<void> => {
    setOpening(true);
    const answer = await stored(async () => success(await keepOpened(walksDb, files, sources.find, new Date().toISOString())));
    setKept(answer.ok ? answer.value : undefined);
    setTrouble(answer.ok ? undefined : answer.problem);
    setOpening(false);
    setRound((before) => before + 1);
  };
  const remove = async (walk: string): Promise<void> => {
    const answer = await removeKept(walksDb, walk);
    setTrouble(answer.ok ? undefined : answer.problem);
    setRound((before) => before + 1);
  };
  const isFiltered = Object.keys(filter).length > 0;
  const isSettled = !sources.looking && local.state !== 'loading' && (!sources.hub || hub.state !== 'loading');
  const isEmpty = isSettled && loaded.length === 0 && hub.state !== 'failed' && local.state !== 'failed';
  return (
    <div className="walks-page">
      <header className="walks-head">
        <h1>Walks</h1>
        <OpenFilesButton open={(files) => void open(files)} busy={opening} loud={isEmpty && !isFiltered} />
      </header>
      {kept && (
        <div role="status" className="walks-said">
          {keptFilesWords(kept).map((words) => (
            <p key={words}>{words}</p>
          ))}
        </div>
      )}
      {trouble && <HubTrouble {...sourceProblemWords(trouble)} />}
      {(isFiltered || !isEmpty) && <FilterForm filter={filter} choices={choices} change={change} />}
      {isEmpty && (isFiltered ? <NothingFits showAll={() => change({})} /> : <NothingYet />)}
      {sources.hub && (
        <WalkList title="The crew’s walks" place="hub" pages={hub} failed={hub.problem && <HubTrouble {...sourceProblemWords(hub.problem)} />} />
      )}
      {sources.looking && (
        <p className="walks-note" role="status">
          Looking for the crew’s hub…
        </p>
      )}
      <HubStands />
      {(local.walks.length > 0 || local.state === 'failed') && (
        <WalkList
          title="Opened from files, in this browser"
          place="here"
          pages={local}
          failed={local.problem && <HubTrouble {...sourceProblemWords(local.problem)} />}
          remove={(walk) => void remove(walk)}
        />
      )}
      {loaded.length > 0 && <CrewMeasuresSection sources={sources} filter={filter} round={round} />}
    </div>
  );
}

type WalkListProps = {
  readonly title: string;
  readonly place: WalkSource['place'];
  readonly pages: ReturnType<typeof usePages>;
  readonly failed?: React.ReactNode;
  readonly remove?: (walk: string) => void;
};

function WalkList({ title, place, pages, failed, remove }: WalkListProps) {
  const { walks, state, next, more, again } = pages;
  if (state === 'ready' && walks.length === 0) return null;
  return (
    <section className="walks-list" aria-labelledby={`walks-${place}`} aria-busy={state === 'loading'}>
      <h2 id={`walks-${place}`}>
        {title} <span className="walks-count">{state === 'loading' ? 'asking…' : countOf(walks, next)}</span>
      </h2>
      {state === 'failed' && failed}
      {state === 'failed' && (
        <button type="button" className="button button-quiet" onClick={again}>
          Ask again
        </button>
      )}
      {walks.length > 0 && <WalkTable caption={title} walks={walks} place={place} {...(remove && { remove })} />}
      {next !== undefined && (
        <button type="button" className="button button-quiet" onClick={more}>
          Show more
        </button>
      )}
    </section>
  );
}

const countOf = (walks: readonly WalkSummary[], next: string | undefined): string =>
  next === undefined ? countWords(walks.length, 'walk') : `the latest ${walks.length}`;

function NothingYet() {
  return (
    <section className="walks-empty">
      <h2>No walks yet</h2>
      <ol>
        <li>
          A tech walks a tree in the field app. On a phone that is in the crew, every call arrives here by itself; without a crew, “Save the log” at
          the end of a call gives a file.
        </li>
        <li>Open that file here, with the edition file of the tree where this desk does not have it. Several files can be opened at once.</li>
        <li>Then replay a call line by line, see its measures, and say whether its finding held.</li>
      </ol>
      <p>
        <a href={guideAddress}>The guide</a> goes through it with an example.
      </p>
    </section>
  );
}

function NothingFits({ showAll }: { readonly showAll: () => void }) {
  return (
    <section className="walks-empty">
      <h2>No walk is like that</h2>
      <p>
        <button type="button" className="button" onClick={showAll}>
          Show all walks
        </button>
      </p>
    </section>
  );
}

/** Where the crew's walks are not on this page although there may be a crew: why. */
function HubStands() {
  const hub = useDeskHub();
  if (hub.state === 'not-joined')
    return (
      <p className="walks-note">
        This desk is in no crew, so only walks opened from files are here. <a href={joinAddress}>Join the crew</a> to see its calls.
      </p>
    );
  if (hub.state !== 'away') return null;
  const { happened } = hubProblemWords(hub.problem);
  return (
    <p className="walks-note">
      {happened}{' '}
      {memberHub(hub)
        ? 'What is shown of the crew’s walks is as it was before; those opened from files are all here.'
        : 'The crew’s walks cannot be shown now; those opened from files can.'}{' '}
      <button type="button" className="button-plain" onClick={() => void hub.again()}>
        Look again
      </button>
    </p>
  );
}
