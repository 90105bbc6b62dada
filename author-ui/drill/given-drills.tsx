import { useCallback, useState } from 'react';
import { clockMinutes, readDrillRecord } from '../../engine/review/index.ts';
import { hubProblemWords } from '../../shared/sync/hub-words.ts';
import type { DrillRuns, GivenDrill } from '../../shared/sync/wire/drill-wire.ts';
import { minutesText } from '../../shared/ui/drill/drill-step-words.ts';
import type { JoinedHub } from '../crew/crew-page.tsx';
import { momentWords } from '../crew/crew-page-words.ts';
import { AskedTrouble, HubTrouble } from '../crew/hub-trouble.tsx';
import { SureButton } from '../crew/sure-button.tsx';
import { type Asked, useAsked, useDeed } from '../crew/use-asked.ts';
import { nameIn, usePeople } from '../crew/use-people.ts';
import { drillsAddressFor } from './drill-address.ts';
import type { DrillEdition } from './use-drill-editions.ts';

type GivenDrillsProps = {
  readonly hub: JoinedHub;
  readonly drills: Asked<{ readonly drills: readonly GivenDrill[] }>;
  readonly editions: readonly DrillEdition[];
};

/** Every drill that was given, the latest first, with who has done it. */
export function GivenDrills({ hub, drills, editions }: GivenDrillsProps) {
  const people = usePeople(hub);
  const name = nameIn(people.value ?? []);
  const list = drills.value?.drills ?? [];
  return (
    <section aria-labelledby="given-title">
      <h2 id="given-title">Given drills</h2>
      <AskedTrouble asked={drills} what="the drills" />
      {drills.state === 'ready' && list.length === 0 && <p>No drill was given yet. Make the first one above.</p>}
      {list.length > 0 && (
        <ul className="drill-given">
          {list.map((given) => (
            <GivenRow key={given.task.id} hub={hub} given={given} editions={editions} nameOf={name} changed={drills.again} />
          ))}
        </ul>
      )}
      {list.length > 0 && (
        <p>
          <button type="button" className="button button-quiet" onClick={drills.again}>
            Ask again
          </button>
        </p>
      )}
    </section>
  );
}

type GivenRowProps = {
  readonly hub: JoinedHub;
  readonly given: GivenDrill;
  readonly editions: readonly DrillEdition[];
  readonly nameOf: (person: string) => string;
  readonly changed: () => void;
};

function GivenRow({ hub, given, editions, nameOf, changed }: GivenRowProps) {
  const { task, byName, at, people, stopped } = given;
  const title = editions.find(({ hash, name }) => hash === task.edition || name === task.tree)?.title ?? task.tree.replaceAll('-', ' ');
  const runs = useAsked(useCallback(() => hub.client.drillRuns(task.id), [hub.client, task.id]));
  const stopping = useDeed();
  const [isShown, setShown] = useState(false);
  const waiting = people.filter((person) => !runs.value?.runs.some((run) => run.person === person));
  return (
    <li>
      <div className="drill-given-head">
        <h3>{title}</h3>
        <p>
          {task.bench.replaceAll('-', ' ')}, {task.order === 'free' ? 'in the tech’s own order' : 'along the tree'}
          {task.note !== undefined && `: “${task.note}”`}
        </p>
        <p className="crew-hint">
          Given by {byName}, {momentWords(at)}, to {people.length === 0 ? 'everyone of the crew' : people.map(nameOf).join(', ')}
          {stopped !== undefined && `. Stopped ${momentWords(stopped)}`}
        </p>
        <TaskFault fault={task.fault} isShown={isShown} show={() => setShown(true)} />
      </div>
      <AskedTrouble asked={runs} what="who has done it" />
      {runs.value && <Runs runs={runs.value.runs} drill={task.id} fault={task.fault} isShown={isShown} />}
      {waiting.length > 0 && stopped === undefined && <p className="crew-hint">Still to do it: {waiting.map(nameOf).join(', ')}.</p>}
      {stopped === undefined && (
        <SureButton
          text="Stop…"
          label={`Stop the drill on ${title}`}
          ask="It goes from the phones that have not begun it. What was done of it stays."
          sure="Stop it"
          keep="Leave it"
          busy={stopping.busy}
          onSure={async () => {
            const done = await stopping.run(() => hub.client.stopDrill(task.id));
            if (done) changed();
            return done !== undefined;
          }}
        />
      )}
      {stopping.problem && <HubTrouble {...hubProblemWords(stopping.problem)} />}
    </li>
  );
}

/** What is hidden stays so until it is asked for: the trainer may want to do the drill too. */
function TaskFault({ fault, isShown, show }: { readonly fault: string | undefined; readonly isShown: boolean; readonly show: () => void }) {
  return (
    <p className="crew-hint">
      {isShown ? (
        <>Wrong in it: {fault === undefined ? 'nothing' : fault.replaceAll('-', ' ')}.</>
      ) : (
        <button type="button" className="button-plain" onClick={show}>
          Show what is wrong in it
        </button>
      )}
    </p>
  );
}

type RunsProps = { readonly runs: DrillRuns['runs']; readonly drill: string; readonly fault: string | undefined; readonly isShown: boolean };

function Runs({ runs, drill, fault, isShown }: RunsProps) {
  if (runs.length === 0) return <p>Nobody has done it yet.</p>;
  return (
    <table className="crew-table">
      <thead>
        <tr>
          <th scope="col">Tech</th>
          <th scope="col">Answer</th>
          <th scope="col" className="number">
            Moves
          </th>
          <th scope="col" className="number">
            Refused
          </th>
          <th scope="col" className="number">
            Minutes on the clock
          </th>
          <th scope="col">Came in</th>
          <td>
            <span className="unseen">Open</span>
          </td>
        </tr>
      </thead>
      <tbody>
        {runs.map(({ run, personName, arrived }) => {
          const read = readDrillRecord(run);
          if (!read.ok) return null;
          const { id, lines } = read.value;
          const last = lines.at(-1);
          return (
            <tr key={id}>
              <th scope="row">{personName}</th>
              <td>{answerWords(last?.move, fault, isShown)}</td>
              <td className="number">{lines.filter(({ refused }) => refused === undefined).length}</td>
              <td className="number">{lines.filter(({ refused }) => refused !== undefined).length}</td>
              <td className="number">{minutesText(clockMinutes(read.value))}</td>
              <td>{momentWords(arrived)}</td>
              <td>
                <a href={drillsAddressFor({ drill, run: id })}>
                  Compare<span className="unseen"> what {personName} did with the best way</span>
                </a>
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

type LastMove = NonNullable<Extract<ReturnType<typeof readDrillRecord>, { ok: true }>['value']['lines'][number]>['move'];

/** The answer as it was given, but not what was right while that is hidden; whether no reading tells it from the right one, the comparison says. */
function answerWords(move: LastMove | undefined, fault: string | undefined, isShown: boolean): string {
  if (move?.do === 'give-up') return 'gave up';
  if (move?.do === 'walk') return move.event.type === 'found' ? 'accepted the tree’s finding' : 'handed over';
  if (move?.do !== 'name') return 'not finished';
  const named = move.faults.length === 0 ? 'nothing is wrong' : move.faults.map((name) => name.replaceAll('-', ' ')).join(', ');
  const right = move.faults.length === 0 ? fault === undefined : move.faults.length === 1 && move.faults[0] === fault;
  if (!right) return named;
  return isShown ? `right: ${named}` : 'right';
}
