import { useTitle } from '../frame/use-title.ts';
import { AuditList } from './audit-list.tsx';
import { type JoinedHub, memberHub, useDeskHub } from './desk-hub.tsx';
import { DeviceList } from './device-list.tsx';
import { HubAway, HubAwayLine, HubMissing, NotJoined } from './hub-missing.tsx';
import { Invitations } from './invitations.tsx';
import { PeopleList } from './people-list.tsx';
import { usePeople } from './use-people.ts';
import { WhoIAm } from './who-i-am.tsx';
import './crew.css';

/** Who is in the crew, on what, and how others come in. Shows each role what it may do. */
export function CrewPage() {
  const hub = useDeskHub();
  const member = memberHub(hub);
  useTitle('Crew');
  // Codes are told once, so a hub that is away for a moment takes nothing off the screen.
  if (member) {
    return (
      <>
        <HubAwayLine />
        <Crew key={`${member.me.device.id} ${member.me.person.role}`} hub={member} />
      </>
    );
  }
  switch (hub.state) {
    case 'no-hub':
      return <HubMissing />;
    case 'away':
      return <HubAway problem={hub.problem} again={hub.again} />;
    case 'not-joined':
      return <NotJoined hub={hub} />;
    default:
      return <p className="loading">Looking for the crew’s hub…</p>;
  }
}

export type { JoinedHub } from './desk-hub.tsx';

function Crew({ hub }: { readonly hub: JoinedHub }) {
  const { role } = hub.me.person;
  const people = usePeople(hub);
  return (
    <article className="crew-page">
      <h1>Crew</h1>
      <WhoIAm hub={hub} />
      {role !== 'tech' && <Invitations hub={hub} people={people.value ?? []} />}
      {role !== 'tech' && <PeopleList hub={hub} people={people} />}
      <DeviceList hub={hub} people={people.value ?? []} />
      {role === 'owner' && <AuditList hub={hub} people={people.value ?? []} />}
    </article>
  );
}
