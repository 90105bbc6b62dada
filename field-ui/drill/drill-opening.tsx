import { CautionPlate } from '../../shared/ui/caution-plate.tsx';
import { useArrival } from '../frame/use-arrival.ts';
import { BarHome } from '../walk/bar-home.tsx';
import { HouseFacts } from './house-facts.tsx';
import { useDrill } from './use-drill.ts';

/** What the tech is told before the first move: the complaint, the house, and what a drill is. */
export function DrillOpening({ onBegin }: { readonly onBegin: () => void }) {
  const { run } = useDrill();
  const { root } = run.ground.edition.compiled;
  const heading = useArrival('drill opening');
  return (
    <div className="walk">
      <header className="walk-bar">
        <BarHome href="#/drills" label="All drills" />
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by the keyboard. */}
      <main className="walk-body" tabIndex={0}>
        <div>
          <p className="kicker">Drill</p>
          <h1 ref={heading} tabIndex={-1}>
            {root.title}
          </h1>
        </div>
        <p className="drill-complaint">{root.complaint}</p>
        {run.ground.task.note !== undefined && <p className="step-notice">{run.ground.task.note}</p>}
        <p>
          Something may be wrong with this circuit; find out what, in any order you like. The meter shows what it would show there. When you know, say
          so. What would be unsafe on a call is refused here, and noted.
        </p>
        <HouseFacts />
        <section className="cautions" aria-label="On a real call">
          <p>
            <strong>On a real call:</strong>
          </p>
          {root.opening.cautions.map((caution, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a caution is known by its place.
            <CautionPlate key={index} caution={caution} />
          ))}
        </section>
      </main>
      <section className="walk-dock" aria-label="Entry">
        <button type="button" className="button button-main button-wide" onClick={onBegin}>
          Take the meter
        </button>
      </section>
    </div>
  );
}
