import type { HubProblem } from '../../shared/sync/hub-problem.ts';
import { hubProblemWords } from '../../shared/sync/hub-words.ts';
import { joinAddress } from '../desk-route.ts';
import { Notice } from '../frame/notice.tsx';
import { type DeskHub, useDeskHub } from './desk-hub.tsx';

/** There is no hub: everything works alone, and how to have one. */
export function HubMissing() {
  return (
    <Notice title="This copy works alone">
      <p>Writing, proving, publishing to this browser and walking need no crew. Nothing is missing here.</p>
      <p>
        To share trees and walks with a crew, start the service with its hub: <code>npm start</code>, without <code>--alone</code>. The terminal then
        shows a link that makes you the owner. If the terminal names a reason why the hub did not start, put that right first.
      </p>
    </Notice>
  );
}

/** The hub cannot be asked at the moment. */
export function HubAway({ problem, again }: { readonly problem: HubProblem; readonly again: DeskHub['again'] }) {
  const { happened, safe } = hubProblemWords(problem);
  return (
    <Notice title={happened}>
      <p>{safe}</p>
      <p>Go on with the trees; they need no hub. Look again when the service runs and this computer is on its network.</p>
      <button type="button" className="button" onClick={() => void again()}>
        Look again
      </button>
    </Notice>
  );
}

/** Told above a page that stays as it is while the hub does not answer. */
export function HubAwayLine() {
  const hub = useDeskHub();
  if (hub.state !== 'away') return null;
  const { happened, safe } = hubProblemWords(hub.problem);
  return (
    <div className="hub-away-line" role="status">
      <p>
        {happened} {safe}
      </p>
      <button type="button" className="button button-quiet" onClick={() => void hub.again()}>
        Look again
      </button>
    </div>
  );
}

/** There is a hub, and this desk is in no crew. */
export function NotJoined({ hub }: { readonly hub: Extract<DeskHub, { state: 'not-joined' }> }) {
  if (hub.stopped !== undefined) {
    const { happened, safe } = hubProblemWords({ code: hub.stopped, status: 401, error: '', body: undefined });
    return (
      <Notice title={happened}>
        <p>{safe}</p>
        <p>Ask the owner for a new invitation and open its link here, or enter its code.</p>
        <a className="button" href={joinAddress}>
          Enter a code
        </a>
      </Notice>
    );
  }
  return (
    <Notice title="This computer is not in the crew">
      {hub.owned ? (
        <p>Ask the owner, a trainer or a senior tech for an invitation. Open its link here, or enter its code.</p>
      ) : (
        <p>
          The crew has no owner yet. The terminal in which the service was started shows a link; whoever opens it is the owner. Without that link,{' '}
          <code>npm run -s hub -- owner-code</code> on the hub’s machine makes a new code.
        </p>
      )}
      <a className="button" href={joinAddress}>
        Enter a code
      </a>
    </Notice>
  );
}
