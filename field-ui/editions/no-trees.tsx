import { useCrew } from '../crew/use-crew.ts';
import { refreshWords } from './refresh-words.ts';
import type { Editions } from './use-editions.ts';

/** Why there is no tree on this device, and what to do; nothing while it is still looked for. */
export function NoTrees({ editions: { refreshed, refresh } }: { readonly editions: Editions }) {
  const { status, sync } = useCrew();
  if (status === 'joined') {
    if (sync.code !== 'done') return null;
    return (
      <div className="start-empty">
        <p>
          <strong>The crew has no tree to walk yet.</strong>
        </p>
        <p>A senior tech or the owner publishes the first one on the desk; then look again.</p>
        <button type="button" className="button" onClick={refresh}>
          Look again
        </button>
      </div>
    );
  }
  if (!refreshed) return null;
  const [problem] = refreshed.problems;
  return (
    <div className="start-empty">
      <p>
        <strong>There is no tree on this device yet.</strong>
      </p>
      <p>
        {problem === undefined
          ? 'The crew’s service has none to give. A senior tech puts the first one on the service; then look again.'
          : problem.code === 'no-signal'
            ? 'The first visit needs a signal: connect once, and the crew’s trees are kept here for when there is none.'
            : refreshWords(problem)}
      </p>
      <button type="button" className="button" onClick={refresh}>
        Look again
      </button>
    </div>
  );
}
