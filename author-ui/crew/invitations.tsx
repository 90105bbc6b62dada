import { type SubmitEvent, useCallback, useState } from 'react';
import { hubProblemWords, roleWords } from '../../shared/sync/hub-words.ts';
import type { FreshCode, Invitation, Person } from '../../shared/sync/wire/crew-wire.ts';
import { MAY_INVITE, type Role, roleSchema } from '../../shared/sync/wire/role.ts';
import { invitationStanding, invitationWords, mayWords, momentWords } from './crew-page-words.ts';
import type { JoinedHub } from './desk-hub.tsx';
import { FreshCodes } from './fresh-codes.tsx';
import { AskedTrouble, HubTrouble } from './hub-trouble.tsx';
import { useAsked, useDeed } from './use-asked.ts';
import { nameIn } from './use-people.ts';

type InvitationsProps = { readonly hub: JoinedHub; readonly people: readonly Person[] };

/** Makes codes for people who are new to the crew, and lists those that were made. */
export function Invitations({ hub, people }: InvitationsProps) {
  const { client, me } = hub;
  const invitations = useAsked(useCallback(() => client.invitations(), [client]));
  const [fresh, setFresh] = useState<{ readonly codes: readonly FreshCode[]; readonly role: Role }>();
  const [showsAll, setShowsAll] = useState(false);
  const now = new Date().toISOString();
  const all = invitations.value?.invitations ?? [];
  const shown = showsAll ? all : all.filter((invitation) => invitationStanding(invitation, now) === 'open');
  return (
    <section aria-labelledby="invitations-title">
      <h2 id="invitations-title">Invitations</h2>
      <InviteForm
        hub={hub}
        onMade={(codes, role) => {
          setFresh({ codes, role });
          invitations.again();
        }}
      />
      {fresh && (
        <FreshCodes
          key={fresh.codes[0]?.id}
          codes={fresh.codes}
          title={
            fresh.codes.length === 1 ? `A code for a ${roleWords(fresh.role).toLowerCase()}` : `${fresh.codes.length} codes, each for one person`
          }
          about={`Good once, until ${momentWords(fresh.codes[0]?.expires ?? now)}, to join as ${roleWords(fresh.role).toLowerCase()}.`}
          onClose={() => setFresh(undefined)}
        />
      )}
      <AskedTrouble asked={invitations} what="the invitations" />
      {invitations.state === 'ready' && all.length === 0 && <p>None was made yet.</p>}
      {all.length > 0 && shown.length === 0 && <p>None is open.</p>}
      {shown.length > 0 && (
        <table className="crew-table">
          <thead>
            <tr>
              <th scope="col">For</th>
              <th scope="col">As</th>
              <th scope="col">Made by</th>
              <th scope="col">State</th>
              <td>
                <span className="unseen">Stop</span>
              </td>
            </tr>
          </thead>
          <tbody>
            {shown.map((invitation) => (
              <InvitationRow
                key={invitation.id}
                hub={hub}
                invitation={invitation}
                by={invitation.by === undefined ? 'the hub’s terminal' : nameIn(people)(invitation.by)}
                isMine={invitation.by === me.person.id}
                now={now}
                changed={invitations.again}
              />
            ))}
          </tbody>
        </table>
      )}
      {all.some((invitation) => invitationStanding(invitation, now) !== 'open') && (
        <button type="button" className="button-plain" aria-expanded={showsAll} onClick={() => setShowsAll(!showsAll)}>
          {showsAll ? 'Only open ones' : 'Used, stopped and out of date ones too'}
        </button>
      )}
    </section>
  );
}

const wholeIn = (text: string, least: number, most: number): number | undefined => {
  const value = Number(text);
  return text.trim() !== '' && Number.isInteger(value) && value >= least && value <= most ? value : undefined;
};

type InviteFormProps = { readonly hub: JoinedHub; readonly onMade: (codes: readonly FreshCode[], role: Role) => void };

function InviteForm({ hub, onMade }: InviteFormProps) {
  const deed = useDeed();
  const roles = MAY_INVITE[hub.me.person.role];
  const [role, setRole] = useState<Role>('tech');
  const [hours, setHours] = useState('72');
  const [count, setCount] = useState('1');
  const [note, setNote] = useState('');
  const invite = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const [wholeHours, wholeCount] = [wholeIn(hours, 1, 24 * 90), wholeIn(count, 1, 500)];
    if (wholeHours === undefined || wholeCount === undefined || deed.busy) return;
    const made = await deed.run(() =>
      hub.client.invite({ role, hours: wholeHours, count: wholeCount, ...(note.trim() !== '' && { note: note.trim() }) }),
    );
    if (!made) return;
    setNote('');
    setCount('1');
    onMade(made.codes, role);
  };
  return (
    <form className="crew-invite" onSubmit={invite}>
      <div className="crew-row">
        <label className="crew-field">
          To join as
          <select value={role} onChange={(event) => setRole(roleSchema.catch(role).parse(event.target.value))}>
            {roles.map((one) => (
              <option key={one} value={one}>
                {roleWords(one)}
              </option>
            ))}
          </select>
        </label>
        <label className="crew-field crew-field-wide">
          Who it is for, as a reminder
          <input value={note} maxLength={120} autoComplete="off" onChange={(event) => setNote(event.target.value)} />
        </label>
        <label className="crew-field">
          Good for hours
          <input type="number" required min={1} max={24 * 90} value={hours} onChange={(event) => setHours(event.target.value)} />
        </label>
        <label className="crew-field">
          How many
          <input type="number" required min={1} max={500} value={count} onChange={(event) => setCount(event.target.value)} />
        </label>
        <button type="submit" className="button" disabled={deed.busy}>
          {deed.busy ? 'Making…' : 'Invite'}
        </button>
      </div>
      <p className="crew-hint">
        {roleWords(role)}: {mayWords(role)}
      </p>
      {deed.problem && <HubTrouble {...hubProblemWords(deed.problem)} />}
    </form>
  );
}

type InvitationRowProps = {
  readonly hub: JoinedHub;
  readonly invitation: Invitation;
  readonly by: string;
  readonly isMine: boolean;
  readonly now: string;
  readonly changed: () => void;
};

function InvitationRow({ hub, invitation, by, isMine, now, changed }: InvitationRowProps) {
  const deed = useDeed();
  const note = invitation.note ?? 'nobody named';
  const role = roleWords(invitation.role);
  return (
    <tr className={invitationStanding(invitation, now) === 'open' ? undefined : 'crew-gone'}>
      <th scope="row">{invitation.note ?? <span className="crew-hint">nobody named</span>}</th>
      <td>{role}</td>
      <td>{isMine ? 'you' : by}</td>
      <td>{invitationWords(invitation, now)}</td>
      <td>
        {invitationStanding(invitation, now) === 'open' && (
          <button
            type="button"
            className="button button-quiet"
            disabled={deed.busy}
            aria-label={`Stop the invitation for ${note}, ${role.toLowerCase()}`}
            onClick={() => void deed.run(() => hub.client.stopInvitation(invitation.id)).then((done) => done && changed())}
          >
            Stop
          </button>
        )}
        {deed.problem && <HubTrouble {...hubProblemWords(deed.problem)} />}
      </td>
    </tr>
  );
}
