import { useId, useState } from 'react';
import { success } from '../../engine/result.ts';
import { type DrillTask, drawFault, drillGround, drillProblemWords } from '../../engine/review/index.ts';
import { isChoice } from '../../engine/tree/index.ts';
import type { WalkableEdition } from '../../engine/walk/index.ts';
import { drillFileName, drillFileText } from '../../shared/device/drill-file.ts';
import { hubProblemWords } from '../../shared/sync/hub-words.ts';
import { drillAnswerWords } from '../../shared/ui/drill/drill-step-words.ts';
import type { JoinedHub } from '../crew/crew-page.tsx';
import { type DeskHub, memberHub, useDeskHub } from '../crew/desk-hub.tsx';
import { HubTrouble } from '../crew/hub-trouble.tsx';
import { useDeed } from '../crew/use-asked.ts';
import { usePeople } from '../crew/use-people.ts';
import type { DrillsAsked } from './drill-address.ts';
import { saveText } from './save-text.ts';
import { type DrillEdition, useLoadedEdition } from './use-drill-editions.ts';

/** The choice that nobody sees before the results do. */
const HIDDEN = '*';
const NOTHING = '';

type DrillFormProps = { readonly editions: readonly DrillEdition[]; readonly asked: DrillsAsked; readonly given: () => void };

/** A drill is made here: the tree and its circuit, what is wrong in it, the house, and for whom. */
export function DrillForm({ editions, asked, given }: DrillFormProps) {
  const hub = useDeskHub();
  const [picked, setPicked] = useState<string>();
  const chosen = editions.find((edition) => edition.hash === picked) ?? editions.find(({ name }) => name === asked.tree) ?? editions[0];
  const hash = chosen?.hash;
  const loaded = useLoadedEdition(hash, hub);
  return (
    <section className="drill-make" aria-labelledby="drill-make-title">
      <h2 id="drill-make-title">Make a drill</h2>
      {!chosen && <p>There is no edition to make a drill of yet. Publish a tree, or look again when the service runs.</p>}
      <label className="crew-field">
        Tree
        <select value={hash} onChange={(event) => setPicked(event.target.value)}>
          {editions.map((edition) => (
            <option key={edition.hash} value={edition.hash}>
              {edition.title}
              {edition.own ? `, edition ${edition.hash.slice(0, 12)} of this browser` : ''}
            </option>
          ))}
        </select>
      </label>
      {loaded.state === 'loading' && <p role="status">Reading the tree…</p>}
      {loaded.state === 'missing' && <p role="alert">This edition could not be fetched. Look again when the service runs.</p>}
      {loaded.state === 'there' && chosen && (
        <Making key={loaded.edition.hash} edition={loaded.edition} own={chosen.own} hub={hub} asked={asked} given={given} />
      )}
    </section>
  );
}

type MakingProps = {
  readonly edition: WalkableEdition;
  readonly own: boolean;
  readonly hub: DeskHub;
  readonly asked: DrillsAsked;
  readonly given: () => void;
};

function Making({ edition, own, hub, asked, given }: MakingProps) {
  const { compiled, hash } = edition;
  const { root, edition: content } = compiled;
  const benches = root.benches.filter((name) => Object.keys(content.benches[name]?.faults ?? {}).length > 0);
  const forThis = asked.tree === root.name;
  const first = (forThis && asked.bench !== undefined && benches.includes(asked.bench) ? asked.bench : undefined) ?? benches[0];
  const [bench, setBench] = useState(first);
  const circuit = bench === undefined ? undefined : content.benches[bench];
  const askedFault = forThis && asked.fault !== undefined && circuit && Object.hasOwn(circuit.faults, asked.fault) ? asked.fault : undefined;
  const [fault, setFault] = useState(askedFault ?? HIDDEN);
  const [facts, setFacts] = useState<Readonly<Record<string, string>>>({});
  const [order, setOrder] = useState<DrillTask['order']>('free');
  const [note, setNote] = useState('');
  const [people, setPeople] = useState<readonly string[]>([]);
  const [wrong, setWrong] = useState<string>();
  const [done, setDone] = useState<string>();
  const giving = useDeed();
  const member = memberHub(hub);
  const reviewer = member && member.me.person.role !== 'tech' ? member : undefined;

  if (bench === undefined || !circuit) return <p>This tree names no bench with faults, so there is nothing to hide. Name one on the tree’s page.</p>;

  const taskNow = (): Omit<DrillTask, 'id'> | undefined => {
    setDone(undefined);
    const hidden = fault === HIDDEN ? drawFault(circuit, Math.random()) : fault === NOTHING ? undefined : fault;
    const set = Object.fromEntries(Object.entries(facts).filter(([name, typed]) => Object.hasOwn(circuit.facts, name) && typed.trim() !== ''));
    const task = {
      edition: hash,
      tree: root.name,
      bench,
      facts: set,
      order,
      ...(hidden !== undefined && { fault: hidden }),
      ...(note.trim() !== '' && { note: note.trim() }),
    };
    const ground = drillGround(edition, { id: 'drill', ...task });
    if (ground.ok) {
      setWrong(undefined);
      return task;
    }
    const { message, fix } = drillProblemWords(ground.problem);
    setWrong(`${message} ${fix}`);
    return undefined;
  };
  const give = async (): Promise<void> => {
    const task = taskNow();
    if (!task) return;
    const answer = await giving.run(async () => {
      // What only this browser has must be on the hub before anyone can be given a drill on it.
      const kept = own ? await hub.client.keepEdition(hash, content) : success(undefined);
      return kept.ok ? hub.client.giveDrill({ task, people: [...people] }) : kept;
    });
    if (!answer) return;
    setDone('Given. It comes to the phones with their next sync.');
    setNote('');
    given();
  };
  const save = (): void => {
    const task = taskNow();
    if (!task) return;
    const whole = { id: `drill-${crypto.getRandomValues(new Uint32Array(2)).join('')}`, ...task };
    saveText(drillFileName(whole), drillFileText(whole, content, member?.me.person.name));
    setDone('Saved. Hand the file over; the field app opens it under Drills.');
  };

  return (
    <>
      <div className="drill-row">
        <label className="crew-field">
          Circuit
          <select
            value={bench}
            onChange={(event) => {
              setBench(event.target.value);
              setFault(HIDDEN);
              setFacts({});
            }}
          >
            {benches.map((name) => (
              <option key={name} value={name}>
                {content.benches[name]?.title ?? name}
              </option>
            ))}
          </select>
        </label>
        <label className="crew-field">
          Wrong in it
          <select value={fault} onChange={(event) => setFault(event.target.value)}>
            <option value={HIDDEN}>hidden even from me: drawn by how often it is met</option>
            <option value={NOTHING}>nothing is wrong</option>
            {Object.keys(circuit.faults).map((name) => (
              <option key={name} value={name}>
                {drillAnswerWords(circuit, name)}
              </option>
            ))}
          </select>
        </label>
        <label className="crew-field">
          Order
          <select value={order} onChange={(event) => setOrder(event.target.value === 'tree' ? 'tree' : 'free')}>
            <option value="free">the tech’s own: every move is chosen</option>
            <option value="tree">along the tree: leads and dial are set where it says</option>
          </select>
        </label>
      </div>
      <details className="drill-house">
        <summary>The house: {Object.values(facts).some((typed) => typed.trim() !== '') ? 'as set below' : 'as usual'}</summary>
        <div className="drill-row">
          {Object.entries(circuit.facts).map(([name, spec]) =>
            isChoice(spec) ? null : (
              <label key={name} className="crew-field">
                {spec.ask}
                <input
                  value={facts[name] ?? ''}
                  placeholder={`${spec.usual} (from ${spec.from} to ${spec.to})`}
                  autoComplete="off"
                  onChange={(event) => setFacts({ ...facts, [name]: event.target.value })}
                />
              </label>
            ),
          )}
        </div>
      </details>
      <label className="crew-field drill-note-field">
        A word to the tech, beside the complaint
        <textarea value={note} maxLength={500} rows={2} onChange={(event) => setNote(event.target.value)} />
      </label>
      {reviewer && <ForWhom hub={reviewer} people={people} setPeople={setPeople} />}
      {wrong !== undefined && (
        <p className="drill-wrong" role="alert">
          {wrong}
        </p>
      )}
      {giving.problem && <HubTrouble {...hubProblemWords(giving.problem)} />}
      <p className="crew-buttons">
        {reviewer && (
          <button type="button" className="button" disabled={giving.busy} onClick={() => void give()}>
            Give the drill
          </button>
        )}{' '}
        <button type="button" className={reviewer ? 'button button-quiet' : 'button'} onClick={save}>
          Save it as a file
        </button>
      </p>
      <p role="status">{done}</p>
    </>
  );
}

type ForWhomProps = { readonly hub: JoinedHub; readonly people: readonly string[]; readonly setPeople: (people: readonly string[]) => void };

function ForWhom({ hub, people, setPeople }: ForWhomProps) {
  const all = usePeople(hub);
  const id = useId();
  const here = (all.value ?? []).filter(({ stopped }) => stopped === undefined);
  return (
    <fieldset className="drill-people">
      <legend id={id}>For whom: {people.length === 0 ? 'everyone of the crew' : `${people.length} of the crew`}</legend>
      {here.map((person) => (
        <label key={person.id}>
          <input
            type="checkbox"
            checked={people.includes(person.id)}
            onChange={(event) => setPeople(event.target.checked ? [...people, person.id] : people.filter((other) => other !== person.id))}
          />{' '}
          {person.name}
        </label>
      ))}
    </fieldset>
  );
}
