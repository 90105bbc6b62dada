import { useCallback } from 'react';
import { useField } from '../frame/field-context.ts';
import { useLive } from '../frame/use-live.ts';
import { drillsOn } from './drill-list.tsx';
import './drills-line.css';

type DrillsLineProps = {
  /** Which of its two places on the start screen this is: above the trees where a drill was given, below them otherwise. */
  readonly place: 'above' | 'below';
};

/** The way to the drills from the start screen, with what waits there. */
export function DrillsLine({ place }: DrillsLineProps) {
  const { db } = useField();
  const drills = useLive(useCallback(() => drillsOn(db), [db]));
  const { given, runs } = drills.status === 'ready' ? drills.value : { given: [], runs: [] };
  const open = runs.filter(({ ended }) => !ended).length;
  const waiting = [...(given.length > 0 ? [`${given.length} given to you`] : []), ...(open > 0 ? [`${open} to go on with`] : [])];
  if (place !== (given.length > 0 ? 'above' : 'below')) return null;
  return (
    <section aria-labelledby="drills-title">
      <div className="start-section-head">
        <h2 id="drills-title">Drills</h2>
        <p className="start-state">{waiting.join(', ')}</p>
      </div>
      <a className="drills-line" href="#/drills">
        <span className="drills-line-title">Find a hidden fault</span>
        <span className="drills-line-about">
          On a circuit that is computed, with a meter that shows what it would show there. Works without a signal.
        </span>
      </a>
    </section>
  );
}
