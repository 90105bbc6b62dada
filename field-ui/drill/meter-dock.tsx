import { QUANTITY_KINDS } from '../../engine/quantity/index.ts';
import type { DrillMove } from '../../engine/review/index.ts';
import { drillProbeWords } from '../../shared/ui/drill/drill-step-words.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';
import type { DrillSheetName } from './free-drill.tsx';
import type { Hands } from './meter-hands.ts';
import { useDrill } from './use-drill.ts';

type MeterDockProps = {
  readonly hands: Hands;
  readonly onHands: (hands: Hands) => void;
  readonly openSheet: (sheet: DrillSheetName) => void;
};

/** The meter in thumb reach: its display, its dial, which lead goes next, and the press that takes the reading. */
export function MeterDock({ hands, onHands, openSheet }: MeterDockProps) {
  const { run, send, writing } = useDrill();
  const move = readingOf(hands);
  const { display } = run;
  return (
    <>
      <div className="drill-display" role="status" aria-label="Display">
        <span className="drill-display-of">{display ? drillProbeWords(display.probe) : hintFor(hands)}</span>
        <strong className="drill-display-value">{display?.text ?? '– – –'}</strong>
      </div>
      <div className="drill-leads">
        {hands.at === undefined ? (
          (['red', 'black'] as const).map((lead) => (
            <button
              key={lead}
              type="button"
              className={`drill-lead drill-lead-${lead}`}
              aria-pressed={hands.next === lead}
              onClick={() => onHands({ ...hands, next: lead })}
            >
              <span className="drill-lead-name">{lead}</span>
              <span className="drill-lead-point">{hands[lead] ?? '…'}</span>
            </button>
          ))
        ) : (
          <p className="drill-at">at {plainWords(hands.at)}</p>
        )}
        <button type="button" className="button button-line drill-dial" onClick={() => openSheet('dial')}>
          {QUANTITY_KINDS[hands.dial].label}
          <span className="button-second">{hands.low ? 'low-impedance input' : 'turn the dial'}</span>
        </button>
      </div>
      <div className="drill-presses">
        <button type="button" className="button button-line" onClick={() => openSheet('look')}>
          Look
        </button>
        <button type="button" className="button button-line" onClick={() => openSheet('circuit')}>
          Change
        </button>
        <button type="button" className="button button-main" disabled={!move || writing} onClick={() => move && void send(move)}>
          Read
        </button>
      </div>
    </>
  );
}

function hintFor({ at, next, red, black }: Hands): string {
  if (at !== undefined) return 'The instrument is connected. Read it.';
  return red !== undefined && black !== undefined ? 'Both leads are on. Read.' : `Press a terminal for the ${next} lead.`;
}

function readingOf({ dial, low, red, black, at }: Hands): DrillMove | undefined {
  if (at !== undefined) return { do: 'measure-at', takes: dial, at };
  if (red === undefined || black === undefined) return undefined;
  return { do: 'measure', takes: dial, across: [red, black], ...(low && { input: 'low' }) };
}
