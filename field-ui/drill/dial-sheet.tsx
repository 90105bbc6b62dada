import { QUANTITY_KINDS } from '../../engine/quantity/index.ts';
import { DRILL_DIAL } from '../../engine/review/index.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';
import { Sheet } from '../frame/sheet.tsx';
import { DrillTrouble } from './drill-trouble.tsx';
import type { Hands } from './meter-hands.ts';
import { useDrill } from './use-drill.ts';

type DialSheetProps = { readonly hands: Hands; readonly onHands: (hands: Hands) => void; readonly onClose: () => void };

/** What the meter is set to, other instruments, and the meter tried on a known source. */
export function DialSheet({ hands, onHands, onClose }: DialSheetProps) {
  const { run, send, writing } = useDrill();
  const { places } = run.ground;
  const { at: _, ...bare } = hands;
  const choose = (next: Hands): void => {
    onHands(next);
    onClose();
  };
  return (
    <Sheet title="Meter" onClose={onClose}>
      <DrillTrouble />
      {/* biome-ignore lint/a11y/useSemanticElements: each is a press of its own, not a form that is sent. */}
      <div className="choices" role="group" aria-label="Dial, between two points">
        {DRILL_DIAL.map((dial) => (
          <button
            key={dial}
            type="button"
            className="choice"
            aria-pressed={hands.at === undefined && hands.dial === dial && !hands.low}
            onClick={() => choose({ ...bare, dial, low: false })}
          >
            <span className="choice-words">{QUANTITY_KINDS[dial].label}</span>
          </button>
        ))}
        <button
          type="button"
          className="choice"
          aria-pressed={hands.at === undefined && hands.low}
          onClick={() => choose({ ...bare, dial: 'ac-voltage', low: true })}
        >
          <span className="choice-words">AC volts, low-impedance input</span>
        </button>
      </div>
      {places.length > 0 && (
        <section aria-labelledby="places-title" className="drill-sheet-part">
          <h2 id="places-title">Other instruments</h2>
          <div className="choices">
            {places.map(({ name, takes }) => (
              <button
                key={`${name} ${takes}`}
                type="button"
                className="choice"
                aria-pressed={hands.at === name && hands.dial === takes}
                onClick={() => choose({ ...bare, dial: takes, low: false, at: name })}
              >
                <span className="choice-words">{plainWords(name)}</span>
                <span className="choice-leads">{QUANTITY_KINDS[takes].label}</span>
              </button>
            ))}
          </div>
        </section>
      )}
      <section aria-labelledby="prove-title" className="drill-sheet-part">
        <h2 id="prove-title">Before and after a reading that must show dead</h2>
        <p>Try the meter on a source that you know is live, read the points dead, try the meter again.</p>
        <button
          type="button"
          className="button button-line button-wide"
          disabled={writing}
          onClick={() => void send({ do: 'prove-meter' }).then((done) => done && onClose())}
        >
          Prove the meter on a known source
        </button>
        {run.circuit.meterProved && <p role="status">The meter is proved.</p>}
      </section>
    </Sheet>
  );
}
