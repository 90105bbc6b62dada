import { type SubmitEvent, useEffect, useState } from 'react';
import type { SyncProblem } from '../../shared/sync/crew-sync.ts';
import { hubProblemWords } from '../../shared/sync/hub-words.ts';
import { keepTechName, keptTechName } from '../device/tech-name.ts';
import { useField } from '../frame/field-context.ts';
import { PageBack } from '../frame/page-back.tsx';
import { PageMessage } from '../frame/page-message.tsx';
import { TroubleNotice } from '../frame/trouble.tsx';
import { useArrival } from '../frame/use-arrival.ts';
import { useLeft } from '../frame/use-left.ts';
import { go, hrefOf } from '../frame/use-route.ts';
import { askToPersist } from '../storage/storage-room.ts';
import { joinProblemWords, memberWords } from './crew-words.ts';
import { useCrew } from './use-crew.ts';
import './crew.css';

/** Where an invitation's link leads: what joining does, and the form for it. */
export function JoinScreen({ code: linked }: { readonly code?: string | undefined }) {
  const { crew } = useField();
  const heading = useArrival('join');
  const left = useLeft();
  const { membership } = useCrew();
  const [code, setCode] = useState(linked ?? '');
  const [name, setName] = useState(keptTechName);
  const [label, setLabel] = useState('Phone');
  const [joining, setJoining] = useState(false);
  const [noHub, setNoHub] = useState(false);
  const [problem, setProblem] = useState<SyncProblem>();

  useEffect(() => {
    document.title = 'Join the crew · Ohmward';
    let left = false;
    void crew.hubState().then((state) => !left && setNoHub(!state.ok && state.problem.code === 'no-hub'));
    return () => {
      left = true;
    };
  }, [crew]);
  useEffect(() => {
    if (linked === undefined) return;
    setCode(linked);
    // A code in the address bar would be in the history and on screenshots.
    history.replaceState(history.state, '', hrefOf({ screen: 'join' }));
  }, [linked]);

  const join = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (joining) return;
    setJoining(true);
    setProblem(undefined);
    const given = name.trim();
    const joined = await crew.join({ code: code.trim(), label: label.trim(), ...(given !== '' && { name: given }) });
    setJoining(false);
    if (!joined.ok) {
      setProblem(joined.problem);
      return;
    }
    keepTechName(joined.value.person.name);
    void askToPersist(navigator.storage);
    if (!left.current) go({ screen: 'start' });
  };

  if (noHub) {
    const { happened, safe, todo } = hubProblemWords({ code: 'no-hub', status: 404, error: '', body: undefined });
    return (
      <PageMessage title={happened}>
        <p>{safe}</p>
        <p>{todo}</p>
      </PageMessage>
    );
  }
  return (
    <main className="page join">
      <PageBack href="#/">All calls</PageBack>
      <h1 ref={heading} tabIndex={-1}>
        Join the crew
      </h1>
      {membership && <p>This device is in the crew already, as {memberWords(membership)}. Joining again takes the place of that.</p>}
      <form className="join-form" onSubmit={join}>
        <label className="field">
          <span>Code of the invitation</span>
          <input
            className="join-code"
            value={code}
            required
            maxLength={100}
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
            onChange={(event) => setCode(event.target.value)}
          />
        </label>
        <label className="field">
          <span>Your name in the crew</span>
          <input value={name} maxLength={80} autoComplete="name" onChange={(event) => setName(event.target.value)} />
        </label>
        <label className="field">
          <span>What to call this device, such as “Van 3 phone”</span>
          <input value={label} required maxLength={80} autoComplete="off" onChange={(event) => setLabel(event.target.value)} />
        </label>
        {problem && <TroubleNotice {...joinProblemWords(problem)} />}
        <button type="submit" className="button button-wide" disabled={joining}>
          {joining ? 'Joining…' : 'Join'}
        </button>
      </form>
      <section aria-labelledby="join-does-title">
        <h2 id="join-does-title">What joining does</h2>
        <ul className="join-does">
          <li>The crew’s trees come onto this device. Open calls stay on the edition they were opened on.</li>
          <li>Entries and photos of every call on this device go to the crew’s hub, the ones from before too.</li>
          <li>You can look at them there, and so can the senior techs, the trainers and the owner.</li>
          <li>Everything goes on working without a signal. What is entered then is sent later.</li>
          <li>You can leave again at any time. What is on this device stays on it.</li>
        </ul>
      </section>
    </main>
  );
}
