import { useFolder } from '../store/desk-root.tsx';
import { useDeskSnapshot, useDeskStore } from '../store/use-desk-store.ts';

/** Files of the service that were removed here, each with a way back. */
export function RemovedFiles() {
  const store = useDeskStore();
  const { removed } = useDeskSnapshot();
  const folder = useFolder();
  // What is removed in a folder is gone from it as soon as that is written; undo brings it back.
  if (removed.length === 0 || folder) return null;
  return (
    <section className="shelf-removed" aria-label="Removed in this browser">
      <h2>Removed in this browser</h2>
      <ul>
        {removed.map(({ path, base }) => (
          <li key={path}>
            <code>{path}</code>{' '}
            <button
              type="button"
              className="button-plain"
              aria-label={`Put back ${path}`}
              onClick={() => base !== undefined && store.write(path, base, `Put back ${path}`)}
            >
              Put back
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
