import type { HubWords } from '../../shared/sync/hub-words.ts';
import { hubProblemWords } from '../../shared/sync/hub-words.ts';
import type { Asked } from './use-asked.ts';
import './crew.css';

/** What happened, what is safe and what to do, told at once. */
export function HubTrouble({ happened, safe, todo }: HubWords) {
  return (
    <div className="hub-trouble" role="alert">
      <p>
        <strong>{happened}</strong>
      </p>
      <p>{safe}</p>
      <p>{todo}</p>
    </div>
  );
}

/** Why a question has no answer, and a way to ask again; words while it is asked the first time. */
export function AskedTrouble<T>({ asked, what }: { readonly asked: Asked<T>; readonly what: string }) {
  if (asked.state === 'asking' && asked.value === undefined) return <p className="crew-asking">Asking the hub for {what}…</p>;
  if (asked.state !== 'failed' || !asked.problem) return null;
  return (
    <>
      <HubTrouble {...hubProblemWords(asked.problem)} />
      <button type="button" className="button button-quiet" onClick={asked.again}>
        Ask again
      </button>
    </>
  );
}
