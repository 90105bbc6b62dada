import { type SubmitEvent, useEffect, useState } from 'react';
import type { WalkableEdition } from '../../engine/walk/index.ts';
import { Prose } from '../../shared/ui/prose.tsx';
import { counted } from '../../shared/ui/words/plain-words.ts';
import { keepTechName, keptTechName } from '../device/tech-name.ts';
import { editionAtAddress } from '../editions/edition-at-address.ts';
import { useField } from '../frame/field-context.ts';
import { PageBack } from '../frame/page-back.tsx';
import { PageMessage } from '../frame/page-message.tsx';
import { TroubleNotice } from '../frame/trouble.tsx';
import { useArrival } from '../frame/use-arrival.ts';
import { useLeft } from '../frame/use-left.ts';
import { go } from '../frame/use-route.ts';
import { openCall } from '../log/open-call.ts';
import type { StorageProblem } from '../storage/storage-problem.ts';
import { askToPersist } from '../storage/storage-room.ts';
import { storageWords } from '../storage/storage-words.ts';
import './call.css';

/** A tree before a call is opened on it: what it covers, and whose house this is. */
export function TreeScreen({ hash }: { readonly hash: string }) {
  const field = useField();
  const [edition, setEdition] = useState<WalkableEdition | 'missing'>();
  useEffect(() => {
    const look = new AbortController();
    const { signal } = look;
    editionAtAddress(hash, field, (path, init) => fetch(path, init), signal).then(
      (found) => !signal.aborted && setEdition(found ?? 'missing'),
      () => !signal.aborted && setEdition('missing'),
    );
    return () => look.abort();
  }, [field, hash]);
  if (edition === undefined) return <main className="page" aria-busy="true" />;
  if (edition === 'missing') {
    return (
      <PageMessage title="This tree is not on the device">
        <p>Calls and other trees are as they were. Go to the start with a signal once, so that the crew’s trees are fetched, and choose it there.</p>
      </PageMessage>
    );
  }
  return <OpenCall edition={edition} />;
}

function OpenCall({ edition }: { readonly edition: WalkableEdition }) {
  const { store } = useField();
  const { root } = edition.compiled;
  const heading = useArrival(edition.hash);
  const left = useLeft();
  const [by, setBy] = useState(keptTechName);
  const [site, setSite] = useState('');
  const [opening, setOpening] = useState(false);
  const [problem, setProblem] = useState<StorageProblem>();
  useEffect(() => {
    document.title = `${root.title} · Ohmward`;
  }, [root.title]);

  const open = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (opening) return;
    setOpening(true);
    keepTechName(by);
    void askToPersist(navigator.storage);
    const opened = await openCall(edition, store, { by, site });
    setOpening(false);
    if (!opened.ok) setProblem(opened.problem);
    else if (!left.current) go({ screen: 'walk', walk: opened.value });
  };

  return (
    <main className="page call">
      <PageBack href="#/">All calls</PageBack>
      <h1 ref={heading} tabIndex={-1}>
        {root.title}
      </h1>
      <p className="call-complaint">{root.complaint}</p>
      <form className="call-form" onSubmit={open}>
        <label className="field">
          <span>Site, as you know it</span>
          <input value={site} maxLength={200} autoComplete="off" onChange={(event) => setSite(event.target.value)} />
        </label>
        <label className="field">
          <span>Your name, for the report</span>
          <input value={by} maxLength={80} autoComplete="name" onChange={(event) => setBy(event.target.value)} />
        </label>
        {problem && <TroubleNotice {...storageWords(problem)} />}
        <button type="submit" className="button button-wide" disabled={opening}>
          Open the call
        </button>
      </form>
      <section className="call-covers" aria-labelledby="covers-title">
        <h2 id="covers-title">What this tree covers</h2>
        <Prose prose={root.opening.prose} figures={edition.compiled.edition.figures} />
        <p className="call-size">
          {counted(root.steps.length, 'step')}, edition <code>{edition.hash.slice(0, 12)}</code>
        </p>
      </section>
    </main>
  );
}
