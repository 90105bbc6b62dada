import { useCallback, useEffect, useState, useSyncExternalStore } from 'react';
import { CrewLine } from '../crew/crew-line.tsx';
import { JoinLine } from '../crew/join-line.tsx';
import { useCrew } from '../crew/use-crew.ts';
import { DrillsLine } from '../drill/drills-line.tsx';
import { NoTrees } from '../editions/no-trees.tsx';
import type { Refreshed } from '../editions/refresh-editions.ts';
import { refreshWords } from '../editions/refresh-words.ts';
import { treesWords } from '../editions/trees-words.ts';
import { useEditions } from '../editions/use-editions.ts';
import { useField } from '../frame/field-context.ts';
import { Mark } from '../frame/mark.tsx';
import { useArrival } from '../frame/use-arrival.ts';
import { useLive } from '../frame/use-live.ts';
import { LITTLE_ROOM, roomLeft } from '../storage/storage-room.ts';
import { storageErrorWords } from '../storage/storage-words.ts';
import { CallList } from './call-list.tsx';
import { ImportLog } from './import-log.tsx';
import { OpenEdition } from './open-edition.tsx';
import { ThemeChoice } from './theme-choice.tsx';
import { TreeList } from './tree-list.tsx';
import './start.css';

/** The first screen: the crew's trees, calls to go on with, and calls that are done. */
export function StartScreen() {
  const { db, update } = useField();
  const standing = useCrew();
  const { status } = standing;
  const heading = useArrival('start');
  const editions = useEditions();
  const { trees, refreshed } = editions;
  const walks = useLive(useCallback(() => db.walks.orderBy('changed').reverse().toArray(), [db]));
  const [room, setRoom] = useState<number>();
  const { ready, waiting } = useSyncExternalStore(update.subscribe, update.state);
  useEffect(() => {
    document.title = 'Ohmward field';
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a look for newer trees is a look at the room for them.
  useEffect(() => {
    const look = () => void roomLeft(navigator.storage).then(setRoom);
    look();
    addEventListener('online', look);
    return () => removeEventListener('online', look);
  }, [refreshed]);

  const unreadable = [trees, walks].find((live) => live.status === 'failed');
  const count = trees.status === 'ready' ? trees.value.length : undefined;
  return (
    <main className="page start">
      <header className="start-head">
        <Mark />
        <h1 ref={heading} tabIndex={-1}>
          Ohmward
        </h1>
        <ThemeChoice />
      </header>
      {unreadable?.status === 'failed' && <StorageNotice error={unreadable.error} />}
      {room !== undefined && room < LITTLE_ROOM && (
        <p className="start-notice" role="status">
          This device has little room left ({(room / 1024 / 1024).toFixed(1)} MB). What is stored is safe. Free some space before the next call,
          photos first.
        </p>
      )}
      {waiting && (
        <p className="start-notice" role="status">
          A new version of the app is ready. Calls go on where they stand.
          <button type="button" className="button button-line" onClick={update.take}>
            Use it now
          </button>
        </p>
      )}
      {status === 'joined' && <CrewLine />}
      {status !== 'loading' && walks.status === 'ready' && <CallList walks={walks.value} />}
      <DrillsLine place="above" />
      <section aria-labelledby="trees-title">
        <div className="start-section-head">
          <h2 id="trees-title">Trees</h2>
          <p className="start-state">{treesWords(count, standing, refreshed, ready)}</p>
        </div>
        {status !== 'loading' && trees.status === 'ready' && count !== undefined && count > 0 && <TreeList trees={trees.value} />}
        {count === 0 && <NoTrees editions={editions} />}
        {count !== undefined && count > 0 && <RefreshProblems refreshed={refreshed} onAgain={editions.refresh} />}
      </section>
      <DrillsLine place="below" />
      {status === 'alone' && editions.hub && <JoinLine />}
      <OpenEdition />
      <ImportLog />
    </main>
  );
}

function RefreshProblems({ refreshed, onAgain }: { readonly refreshed: Refreshed | undefined; readonly onAgain: () => void }) {
  if (!refreshed || refreshed.problems.length === 0) return null;
  return (
    <div className="start-notice" role="status">
      <div>
        {refreshed.problems.map((problem) => (
          <p key={refreshWords(problem)}>{refreshWords(problem)}</p>
        ))}
      </div>
      <button type="button" className="button button-line" onClick={onAgain}>
        Look again
      </button>
    </div>
  );
}

function StorageNotice({ error }: { readonly error: unknown }) {
  return (
    <p className="start-notice" role="alert">
      {storageErrorWords(error)}
    </p>
  );
}
