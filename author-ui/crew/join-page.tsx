import { type SubmitEvent, useEffect, useRef, useState } from 'react';
import { hubProblemWords, roleWords } from '../../shared/sync/hub-words.ts';
import type { Person } from '../../shared/sync/wire/crew-wire.ts';
import { crewAddress, joinAddress, shelfAddress } from '../desk-route.ts';
import { useTitle } from '../frame/use-title.ts';
import { mayWords } from './crew-page-words.ts';
import { useDeskHub } from './desk-hub.tsx';
import { HubAwayLine, HubMissing } from './hub-missing.tsx';
import { HubTrouble } from './hub-trouble.tsx';
import { keepName, keptName } from './kept-name.ts';
import { useDeed } from './use-asked.ts';
import './crew.css';

/** Where an invitation's link leads: what joining does, and the form for it. */
export function JoinPage({ code: linked }: { readonly code?: string }) {
  const hub = useDeskHub();
  const deed = useDeed();
  const [code, setCode] = useState(linked ?? '');
  const [name, setName] = useState(keptName);
  const [label, setLabel] = useState('');
  const [joined, setJoined] = useState<Person>();
  useTitle('Join the crew');
  useEffect(() => {
    if (linked === undefined) return;
    setCode(linked);
    // A code in the address bar would be in the history and on screenshots.
    history.replaceState(history.state, '', joinAddress);
  }, [linked]);

  const join = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (deed.busy) return;
    const given = name.trim();
    const answer = await deed.run(() =>
      hub.client.join({ code: code.trim(), kind: 'desk', label: label.trim(), ...(given !== '' && { name: given }) }),
    );
    if (!answer) return;
    // The place that this computer had before would stay open in the list. Another person's stays, for them to stop.
    if (hub.state === 'joined' && hub.me.person.id === answer.person.id) void hub.client.stopDevice(hub.me.device.id);
    keepName(answer.person.name);
    setJoined(answer.person);
    await hub.again();
  };

  if (joined) return <Joined person={joined} />;
  if (hub.state === 'no-hub') return <HubMissing />;
  return (
    <>
      <HubAwayLine />
      <article className="crew-page">
        <h1>Join the crew</h1>
        {hub.state === 'joined' && (
          <p>
            This desk is in the crew already, as {hub.me.person.name}, {roleWords(hub.me.person.role).toLowerCase()}. Joining again takes the place of
            that on this computer.
          </p>
        )}
        <form className="crew-form" onSubmit={join}>
          <label className="crew-field">
            Code of the invitation
            <input
              className="crew-code"
              value={code}
              required
              maxLength={100}
              autoComplete="off"
              spellCheck={false}
              onChange={(event) => setCode(event.target.value)}
            />
          </label>
          <label className="crew-field">
            Your name in the crew
            <input value={name} maxLength={80} autoComplete="name" onChange={(event) => setName(event.target.value)} />
          </label>
          <label className="crew-field">
            What to call this computer, such as “Office laptop”
            <input value={label} required maxLength={80} autoComplete="off" onChange={(event) => setLabel(event.target.value)} />
          </label>
          {deed.problem && <HubTrouble {...hubProblemWords(deed.problem)} />}
          <button type="submit" className="button" disabled={deed.busy || hub.state === 'looking'}>
            {deed.busy ? 'Joining…' : 'Join'}
          </button>
        </form>
        <section aria-labelledby="join-does-title">
          <h2 id="join-does-title">What joining does</h2>
          <ul>
            <li>Your role comes with the invitation. It is told once you have joined.</li>
            <li>Trees and benches that you write stay in this browser or your folder. Only what you publish to the crew goes to the hub.</li>
            <li>This computer stays in the crew as long as it is used at least once in 30 days.</li>
            <li>You can leave at any time. What is on this computer stays on it.</li>
          </ul>
        </section>
      </article>
    </>
  );
}

function Joined({ person }: { readonly person: Person }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <article className="crew-page">
      <h1 ref={heading} tabIndex={-1}>
        You are in the crew
      </h1>
      <p>
        {person.name}, <strong>{roleWords(person.role).toLowerCase()}</strong>: {mayWords(person.role)}
      </p>
      <p className="crew-buttons">
        <a className="button" href={crewAddress}>
          Go to the crew’s page
        </a>{' '}
        <a className="button button-quiet" href={shelfAddress}>
          Go to the shelf
        </a>
      </p>
    </article>
  );
}
