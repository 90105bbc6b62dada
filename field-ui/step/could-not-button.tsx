import { useSession } from '../walk/use-session.ts';
import { useWalkControls } from '../walk/walk-controls.ts';

/** For a step that cannot be done here; shown only where the walk has a way on for it. */
export function CouldNotButton({ words = 'Cannot do this' }: { readonly words?: string }) {
  const { expects } = useSession();
  const { openSheet } = useWalkControls();
  if (!expects.has('could-not')) return null;
  return (
    <button type="button" className="button button-line could-not" onClick={() => openSheet('cannot')}>
      {words}
    </button>
  );
}
