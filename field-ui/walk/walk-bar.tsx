import { useSuspects } from '../suspects/use-suspects.ts';
import { BarHome } from './bar-home.tsx';
import { useSession } from './use-session.ts';
import { useWalkControls } from './walk-controls.ts';

/** Always one tap away: the calls, the path, the suspects, what is to be put back, and the rest. */
export function WalkBar() {
  const { view } = useSession();
  const { openSheet } = useWalkControls();
  const steps = view.path.length;
  const left = view.putBack.length;
  return (
    <header className="walk-bar">
      <BarHome href="#/" label="All calls" />
      <button type="button" className="walk-bar-item" onClick={() => openSheet('path')}>
        Path <span className="walk-bar-count">{steps}</span>
      </button>
      <SuspectsButton />
      <button type="button" className="walk-bar-item walk-bar-put-back" data-some={left > 0 || undefined} onClick={() => openSheet('put-back')}>
        Put back <span className="walk-bar-count">{left}</span>
      </button>
      <button type="button" className="walk-bar-item walk-bar-more" onClick={() => openSheet('more')}>
        More
        <svg viewBox="0 0 16 16" aria-hidden="true">
          <path d="M2 8h.01M8 8h.01M14 8h.01" />
        </svg>
      </button>
    </header>
  );
}

/** With how many faults are still possible, as soon as that is known. */
function SuspectsButton() {
  const { report, failed } = useSuspects();
  const { openSheet } = useWalkControls();
  const count = failed !== undefined ? '!' : report && report.benches > 0 ? report.possible.length : '–';
  return (
    <button type="button" className="walk-bar-item" onClick={() => openSheet('suspects')}>
      Suspects{' '}
      <span className="walk-bar-suspects" aria-hidden={typeof count === 'string' || undefined}>
        {count}
      </span>
    </button>
  );
}
