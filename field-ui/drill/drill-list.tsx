import { useCallback, useState } from 'react';
import { type DrillTask, readDrillRecord } from '../../engine/review/index.ts';
import { useCrew } from '../crew/use-crew.ts';
import { keptTechName } from '../device/tech-name.ts';
import { editionAtAddress } from '../editions/edition-at-address.ts';
import { useField } from '../frame/field-context.ts';
import { useLive } from '../frame/use-live.ts';
import { hrefOf } from '../frame/use-route.ts';
import { momentWords } from '../start/moment-words.ts';
import type { FieldDb } from '../storage/field-db.ts';
import { useBeginDrill } from './use-begin-drill.ts';

type Given = { readonly task: DrillTask; readonly byName: string; readonly title: string; readonly at: string };
type Run = {
  readonly id: string;
  readonly drill: string;
  readonly title: string;
  readonly ended: boolean;
  readonly at: string;
  readonly moves: number;
};
export type Drills = { readonly given: readonly Given[]; readonly runs: readonly Run[] };

/** Drills of this device: given and not begun yet, and those begun, the last first. */
export async function drillsOn(db: FieldDb): Promise<Drills> {
  const [tasks, runs, editions] = await Promise.all([db.drillTasks.toArray(), db.drillRuns.toArray(), db.editions.toArray()]);
  const titles = new Map(editions.map(({ hash, title }) => [hash, title]));
  const begun = new Set(runs.map(({ drill }) => drill));
  return {
    given: tasks
      .filter(({ task, stopped }) => stopped === undefined && !begun.has(task.id))
      .map(({ task, byName, at }) => ({ task, byName, at, title: titles.get(task.edition) ?? task.tree.replaceAll('-', ' ') }))
      .sort((a, b) => (a.at < b.at ? 1 : -1)),
    runs: runs
      .flatMap(({ id, drill, run, ended }): readonly Run[] => {
        const record = readDrillRecord(run);
        if (!record.ok) return [];
        const { task, lines, begun: began } = record.value;
        const at = lines.at(-1)?.time ?? began.time;
        return [{ id, drill, title: titles.get(task.edition) ?? task.tree.replaceAll('-', ' '), ended: ended === true, at, moves: lines.length }];
      })
      .sort((a, b) => (a.at < b.at ? 1 : -1)),
  };
}

/** Given drills to begin, drills to go on with, and results. */
export function DrillList() {
  const field = useField();
  const { db } = field;
  const { membership } = useCrew();
  const drills = useLive(useCallback(() => drillsOn(db), [db]));
  const [said, setSaid] = useState<string>();
  const drill = useBeginDrill(setSaid);
  if (drills.status !== 'ready') return null;
  const { given, runs } = drills.value;
  const begin = ({ task }: Given): Promise<void> =>
    drill.press(async () => {
      setSaid(undefined);
      const edition = await editionAtAddress(task.edition, field, (path, init) => fetch(path, init));
      if (edition) await drill.begin(edition, task, membership?.person.name ?? keptTechName());
      else setSaid('The tree of this drill is not on the device. Try it once with a signal.');
    });
  return (
    <>
      {given.length > 0 && (
        <section aria-labelledby="given-title">
          <div className="start-section-head">
            <h2 id="given-title">Given to you</h2>
          </div>
          <ul className="call-list">
            {given.map((one) => (
              <li key={one.task.id} className="call-line call-line-open">
                <span className="call-line-title">{one.title}</span>
                <span className="call-line-when">
                  {one.task.order === 'free' ? 'In your own order' : 'Along the tree'} · from {one.byName}, {momentWords(one.at, new Date())}
                </span>
                <span className="call-line-state">{one.task.note}</span>
                <button type="button" className="call-line-go" onClick={() => void begin(one)}>
                  Begin<span className="unseen"> {one.title}</span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      {runs.length > 0 && (
        <section aria-labelledby="runs-title">
          <div className="start-section-head">
            <h2 id="runs-title">Begun and done</h2>
          </div>
          <ul className="call-list">
            {runs.map(({ id, title, ended, at, moves }) => (
              <li key={id}>
                <a className={ended ? 'call-line' : 'call-line call-line-open'} href={hrefOf({ screen: 'drill', run: id })}>
                  <span className="call-line-title">{title}</span>
                  <span className="call-line-when">{momentWords(at, new Date())}</span>
                  <span className="call-line-state">
                    {moves} {moves === 1 ? 'move' : 'moves'}
                  </span>
                  <span className="call-line-go">{ended ? 'Result' : 'Go on'}</span>
                </a>
              </li>
            ))}
          </ul>
        </section>
      )}
      {given.length + runs.length === 0 && <p>No drill was given to you yet. Practise alone below; it needs no signal.</p>}
      <p role="status">{said}</p>
    </>
  );
}
