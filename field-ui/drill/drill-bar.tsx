import { BarHome } from '../walk/bar-home.tsx';
import type { DrillSheetName } from './free-drill.tsx';
import { useDrill } from './use-drill.ts';

type DrillBarProps = { readonly openSheet: (sheet: DrillSheetName) => void; readonly putBack: number };

/** Always one press away: the drills, the path, what the house is, the circuit and what is done to it, the answer. */
export function DrillBar({ openSheet, putBack }: DrillBarProps) {
  const { run } = useDrill();
  const moves = run.record.lines.filter(({ refused }) => refused === undefined).length;
  return (
    <header className="walk-bar">
      <BarHome href="#/drills" label="All drills" />
      <button type="button" className="walk-bar-item" onClick={() => openSheet('path')}>
        Path <span className="walk-bar-count">{moves}</span>
      </button>
      <button type="button" className="walk-bar-item" onClick={() => openSheet('house')}>
        House{' '}
        <svg viewBox="0 0 16 16" aria-hidden="true" className="drill-bar-sign">
          <path d="M2 8 8 2.5 14 8M4 7v6.5h8V7" />
        </svg>
      </button>
      <button type="button" className="walk-bar-item walk-bar-put-back" data-some={putBack > 0 || undefined} onClick={() => openSheet('circuit')}>
        Put back <span className="walk-bar-count">{putBack}</span>
      </button>
      <button type="button" className="walk-bar-item walk-bar-more" onClick={() => openSheet('answer')}>
        Answer
        <svg viewBox="0 0 16 16" aria-hidden="true" className="drill-bar-sign">
          <path d="m2.5 8.5 4 4 7-9" />
        </svg>
      </button>
    </header>
  );
}
