import { useSession } from '../walk/use-session.ts';
import { useWalkControls } from '../walk/walk-controls.ts';

/** The photos that a step asks for, and whether they were taken. */
export function PhotoAsks() {
  const { view } = useSession();
  const { openSheet } = useWalkControls();
  const { step } = view;
  if (!step || step.photos.length === 0) return null;
  return (
    <ul className="photo-asks">
      {step.photos.map((ask) => (
        <li key={ask}>
          <span>Photo: {ask}</span>
          <button type="button" className="button button-line" onClick={() => openSheet('photo')}>
            {view.photos.some((photo) => photo.ask === ask) ? 'Take another' : 'Take it'}
          </button>
        </li>
      ))}
    </ul>
  );
}
