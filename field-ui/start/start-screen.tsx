import { useCallback, useEffect, useState, useSyncExternalStore } from 'react';
import { CrewLine } from '../crew/crew-line.tsx';
import { useCrew } from '../crew/use-crew.ts';
import { type Refreshed, refreshEditions } from '../editions/refresh-editions.ts';
import { refreshWords } from '../editions/refresh-words.ts';
import { useField } from '../frame/field-context.ts';
import { Mark } from '../frame/mark.tsx';
import { useArrival } from '../frame/use-arrival.ts';
import { useLive } from '../frame/use-live.ts';
import { storageProblem } from '../storage/storage-problem.ts';
import { LITTLE_ROOM, roomLeft } from '../storage/storage-room.ts';
import { storageWords } from '../storage/storage-words.ts';
import { CallList } from './call-list.tsx';
import { ImportLog } from './import-log.tsx';
import { OpenEdition } from './open-edition.tsx';
import { ThemeChoice } from './theme-choice.tsx';
import { TreeList } from './tree-list.tsx';
import './start.css';

/** The first screen: the crew's trees, calls to go on with, and calls that are done. */
export function StartScreen() {
  const { db, update, crew } = useField();
  const { status, sync } = useCrew();
  const heading = useArrival('start');
  const trees = useLive(
    useCallback(async () => (await db.editions.toArray()).filter(({ listed }) => listed >= 0).sort((a, b) => a.listed - b.listed), [db]),
  );
  const walks = useLive(useCallback(() => db.walks.orderBy('changed').reverse().toArray(), [db]));
  const [refreshed, setRefreshed] = useState<Refreshed>();
  const [room, setRoom] = useState<number>();
  const { ready, waiting } = useSyncExternalStore(update.subscribe, update.state);

  const refresh = useCallback(() => {
    if (status === 'loading') return;
    void roomLeft(navigator.storage).then(setRoom);
    setRefreshed(undefined);
    // The crew's list takes the place of the shipped one, and sync brings it.
    if (status === 'joined') {
      crew.nudge();
      return;
    }
    refreshEditions(db, (path, init) => fetch(path, init)).then(setRefreshed, () => setRefreshed({ trees: 0, fetched: 0, problems: [] }));
  }, [db, crew, status]);
  useEffect(refresh, [refresh]);
  useEffect(() => {
    document.title = 'Ohmward field';
    addEventListener('online', refresh);
    return () => removeEventListener('online', refresh);
  }, [refresh]);

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
      <section aria-labelledby="trees-title">
        <div className="start-section-head">
          <h2 id="trees-title">Trees</h2>
          <p className="start-state">{status === 'joined' ? joinedWords(count, sync.code, ready) : stateWords(count, refreshed, ready)}</p>
        </div>
        {status !== 'loading' && trees.status === 'ready' && count !== undefined && count > 0 && <TreeList trees={trees.value} />}
        {count === 0 && status === 'joined' && sync.code === 'done' && <NoCrewTrees onAgain={refresh} />}
        {count === 0 && <NoTrees refreshed={refreshed} onAgain={refresh} />}
        {count !== undefined && count > 0 && <RefreshProblems refreshed={refreshed} onAgain={refresh} />}
      </section>
      <OpenEdition />
      <ImportLog />
    </main>
  );
}

function stateWords(count: number | undefined, refreshed: Refreshed | undefined, ready: boolean): string {
  if (count === undefined || (!refreshed && count === 0)) return 'Looking for the crew’s trees…';
  if (!refreshed) return 'Looking for newer ones…';
  return ready && count > 0 ? 'Kept on this device; they work without a signal' : '';
}

function joinedWords(count: number | undefined, sync: string, ready: boolean): string {
  if (count === undefined || (count === 0 && sync === 'working')) return 'Looking for the crew’s trees…';
  if (count === 0) return '';
  return ready ? 'The crew’s list, kept on this device' : 'The crew’s list';
}

function NoCrewTrees({ onAgain }: { readonly onAgain: () => void }) {
  return (
    <div className="start-empty">
      <p>
        <strong>The crew has no tree to walk yet.</strong>
      </p>
      <p>A senior tech or the owner publishes the first one on the desk; then look again.</p>
      <button type="button" className="button" onClick={onAgain}>
        Look again
      </button>
    </div>
  );
}

function NoTrees({ refreshed, onAgain }: { readonly refreshed: Refreshed | undefined; readonly onAgain: () => void }) {
  if (!refreshed) return null;
  const [problem] = refreshed.problems;
  return (
    <div className="start-empty">
      <p>
        <strong>There is no tree on this device yet.</strong>
      </p>
      <p>
        {problem === undefined
          ? 'The crew’s service has none to give. A senior tech puts the first one on the service; then look again.'
          : problem.code === 'no-signal'
            ? 'The first visit needs a signal: connect once, and the crew’s trees are kept here for when there is none.'
            : refreshWords(problem)}
      </p>
      <button type="button" className="button" onClick={onAgain}>
        Look again
      </button>
    </div>
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
  const { happened, todo } = storageWords(storageProblem(error));
  return (
    <p className="start-notice" role="alert">
      {happened} {todo}
    </p>
  );
}
