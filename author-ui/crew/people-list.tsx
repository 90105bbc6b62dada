import { type SubmitEvent, useState } from 'react';
import { hubProblemWords, roleWords } from '../../shared/sync/hub-words.ts';
import type { Person, PersonChange } from '../../shared/sync/wire/crew-wire.ts';
import { ROLES, roleSchema } from '../../shared/sync/wire/role.ts';
import { dayWords, mayWords } from './crew-page-words.ts';
import type { JoinedHub } from './desk-hub.tsx';
import { AskedTrouble, HubTrouble } from './hub-trouble.tsx';
import { SureButton } from './sure-button.tsx';
import { type Asked, useDeed } from './use-asked.ts';

type PeopleListProps = { readonly hub: JoinedHub; readonly people: Asked<readonly Person[]> };

/** Everyone of the crew. An owner says who is in it, as what, and under which name. */
export function PeopleList({ hub, people }: PeopleListProps) {
  const [open, setOpen] = useState<string>();
  const isOwner = hub.me.person.role === 'owner';
  const list = people.value ?? [];
  return (
    <section aria-labelledby="people-title">
      <h2 id="people-title">People</h2>
      <AskedTrouble asked={people} what="the crew’s people" />
      {list.length === 1 && <p>You are alone in the crew so far. Make an invitation above for each who joins.</p>}
      {list.length > 0 && (
        <table className="crew-table">
          <thead>
            <tr>
              <th scope="col">Name</th>
              <th scope="col">Role</th>
              <th scope="col">In the crew since</th>
              {isOwner && (
                <td>
                  <span className="unseen">Change</span>
                </td>
              )}
            </tr>
          </thead>
          <tbody>
            {list.map((person) => (
              <PersonRows
                key={person.id}
                hub={hub}
                person={person}
                isOpen={open === person.id}
                setOpen={(opens) => setOpen(opens ? person.id : undefined)}
                changed={people.again}
              />
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

type PersonRowsProps = {
  readonly hub: JoinedHub;
  readonly person: Person;
  readonly isOpen: boolean;
  readonly setOpen: (opens: boolean) => void;
  readonly changed: () => void;
};

function PersonRows({ hub, person, isOpen, setOpen, changed }: PersonRowsProps) {
  const { id, name, role, since, stopped } = person;
  const isMe = id === hub.me.person.id;
  const isOwner = hub.me.person.role === 'owner';
  return (
    <>
      <tr className={stopped === undefined ? undefined : 'crew-gone'}>
        <th scope="row">
          {name}
          {isMe && ' (you)'}
        </th>
        <td>{roleWords(role)}</td>
        <td>
          {dayWords(since)}
          {stopped !== undefined && <strong>, out since {dayWords(stopped)}</strong>}
        </td>
        {isOwner && (
          <td>
            <button
              type="button"
              className="button button-quiet"
              aria-expanded={isOpen}
              aria-label={`Change ${name}`}
              onClick={() => setOpen(!isOpen)}
            >
              Change
            </button>
          </td>
        )}
      </tr>
      {isOpen && isOwner && (
        <tr>
          <td colSpan={4}>
            <ChangePerson hub={hub} person={person} changed={changed} />
          </td>
        </tr>
      )}
    </>
  );
}

function ChangePerson({ hub, person, changed }: { readonly hub: JoinedHub; readonly person: Person; readonly changed: () => void }) {
  const deed = useDeed();
  const [name, setName] = useState(person.name);
  const [role, setRole] = useState(person.role);
  const [told, setTold] = useState<string>();
  const isMe = person.id === hub.me.person.id;
  const isSame = name.trim() === person.name && role === person.role;

  const change = async (wanted: PersonChange, done: string): Promise<boolean> => {
    setTold(undefined);
    const after = await deed.run(() => hub.client.changePerson(person.id, wanted));
    if (!after) return false;
    setName(after.name);
    setRole(after.role);
    setTold(done);
    changed();
    if (isMe) await hub.again();
    return true;
  };
  const save = (event: SubmitEvent): void => {
    event.preventDefault();
    if (isSame || name.trim() === '') return;
    void change({ ...(name.trim() !== person.name && { name: name.trim() }), ...(role !== person.role && { role }) }, 'Changed.');
  };

  return (
    <div className="crew-change">
      <form className="crew-row" onSubmit={save}>
        <label className="crew-field">
          Name
          <input value={name} required maxLength={80} onChange={(event) => setName(event.target.value)} />
        </label>
        <label className="crew-field">
          Role
          <select value={role} onChange={(event) => setRole(roleSchema.catch(role).parse(event.target.value))}>
            {ROLES.map((one) => (
              <option key={one} value={one}>
                {roleWords(one)}
              </option>
            ))}
          </select>
        </label>
        <button type="submit" className="button" disabled={deed.busy || isSame}>
          Save
        </button>
      </form>
      <p className="crew-hint">
        {roleWords(role)}: {mayWords(role)}
      </p>
      {person.stopped === undefined ? (
        <SureButton
          text="Take out of the crew…"
          ask={`None of ${person.name}’s devices gets or sends anything any more. Their walks stay on the hub, and what is on their devices stays there. You can let them back.`}
          sure="Take out"
          keep="Leave as it is"
          busy={deed.busy}
          onSure={() => change({ stopped: true }, `${person.name} is out of the crew.`)}
        />
      ) : (
        <button
          type="button"
          className="button button-quiet"
          disabled={deed.busy}
          onClick={() => void change({ stopped: false }, `${person.name} is in the crew again.`)}
        >
          Let back into the crew
        </button>
      )}
      <p role="status" className="crew-told">
        {told}
      </p>
      {deed.problem && <HubTrouble {...hubProblemWords(deed.problem)} />}
    </div>
  );
}
