import { useState } from 'react';
import { QUANTITY_KINDS, type QuantityKindName } from '../../engine/quantity/index.ts';
import { DRILL_DIAL, type DrillMove, drillPoints } from '../../engine/review/index.ts';
import type { LookStep, ReadingStep } from '../../engine/tree/index.ts';
import { plainWords } from '../../shared/ui/words/plain-words.ts';
import { CouldNotButton } from '../step/could-not-button.tsx';
import { useSession } from '../walk/use-session.ts';
import { DrillTrouble } from './drill-trouble.tsx';
import { useDrill } from './use-drill.ts';
import './drill.css';

/** The simulated meter on a step: the tech sets dial and leads; what the display then shows is what can be entered. */
export function TreeMeter({ step }: { readonly step: ReadingStep }) {
  const { run, send, writing } = useDrill();
  const { send: walk, writing: walking } = useSession();
  const { ground, circuit } = run;
  const [meter, setMeter] = useState(FIRST_METER);
  // What was read with the dial or a lead elsewhere is not what the meter shows now, and is not entered. A lead may have been moved while the
  // reading was being written, so the meter that was read is remembered; a drill that is gone on with shows what was read last.
  const [readWith, setReadWith] = useState(FIRST_METER);
  const display = readWith === meter ? run.display : undefined;
  const { dial, at } = meter;
  const change = (part: Partial<typeof meter>): void => setMeter({ ...meter, ...part });
  const known = drillPoints(ground, circuit);
  const ranges = [
    ...DRILL_DIAL.map((takes) => ({ value: takes as string, words: QUANTITY_KINDS[takes].label })),
    { value: LOW, words: 'AC volts, low-impedance input' },
    ...[...new Set(ground.places.map(({ takes }) => takes))].map((takes) => ({ value: `${PLACE}${takes}`, words: QUANTITY_KINDS[takes].meter })),
  ];
  const places = ground.places.filter(({ takes }) => `${PLACE}${takes}` === dial);
  const place = places.find(({ name }) => name === at) ?? places[0];
  const move = moveOf(dial, known.includes(meter.red) ? meter.red : '', known.includes(meter.black) ? meter.black : '', place?.name);
  return (
    <div className="drill-tree-meter">
      <DrillTrouble />
      <div className="drill-display" role="status" aria-label="Display">
        <span className="drill-display-of">{display ? 'The meter shows' : 'Set the dial, put both leads on, and read'}</span>
        <strong className="drill-display-value">{display?.text ?? '– – –'}</strong>
      </div>
      <label className="field drill-field">
        <span>Dial</span>
        <select value={dial} onChange={(event) => change({ dial: event.target.value })}>
          {ranges.map(({ value, words }) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </select>
      </label>
      {places.length > 0 ? (
        <label className="field drill-field">
          <span>At</span>
          <select value={place?.name} onChange={(event) => change({ at: event.target.value })}>
            {places.map(({ name }) => (
              <option key={name} value={name}>
                {plainWords(name)}
              </option>
            ))}
          </select>
        </label>
      ) : (
        <div className="drill-two">
          {(['red', 'black'] as const).map((lead) => (
            <label key={lead} className="field drill-field">
              <span>{lead} lead</span>
              <select value={meter[lead]} onChange={(event) => change({ [lead]: event.target.value })}>
                <option value="">…</option>
                {known.map((point) => (
                  <option key={point}>{point}</option>
                ))}
              </select>
            </label>
          ))}
        </div>
      )}
      <div className="drill-presses">
        <CouldNotButton words="Cannot" />
        <button
          type="button"
          className="button button-line"
          disabled={!move || writing}
          onClick={() => move && void send(move).then((taken) => taken && setReadWith(meter))}
        >
          Read
        </button>
        <button
          type="button"
          className="button button-main"
          disabled={!display || writing || walking}
          onClick={() => display && void walk({ type: 'read', typed: display.text })}
        >
          Enter it<span className="unseen"> for {step.title}</span>
        </button>
      </div>
    </div>
  );
}

const FIRST_METER = { dial: 'ac-voltage', red: '', black: '', at: '' };
const LOW = 'ac-voltage low';
const PLACE = 'at ';

function moveOf(dial: string, red: string, black: string, at: string | undefined): DrillMove | undefined {
  const takes = (dial.startsWith(PLACE) ? dial.slice(PLACE.length) : dial === LOW ? 'ac-voltage' : dial) as QuantityKindName;
  if (dial.startsWith(PLACE)) return at === undefined ? undefined : { do: 'measure-at', takes, at };
  if (red === '' || black === '') return undefined;
  return { do: 'measure', takes, across: [red, black], ...(dial === LOW && { input: 'low' }) };
}

/** What would be seen on a look step, when the tech looks. */
export function DrillSight({ step }: { readonly step: LookStep }) {
  const { run, send, writing, seen } = useDrill();
  const { sign } = step;
  if (sign === undefined || !Object.hasOwn(run.ground.bench.signs, sign)) {
    return <p className="drill-hint">The drill’s circuit has no sign of this. Choose what a sound one would show.</p>;
  }
  return (
    <div className="drill-sight">
      <button type="button" className="button button-line" disabled={writing} onClick={() => void send({ do: 'look', sign })}>
        Look
      </button>
      <p role="status">
        {seen?.sign === sign ? (
          <>
            {plainWords(sign)}: <strong>{seen.text}</strong>
          </>
        ) : (
          'Look first, then say what you found.'
        )}
      </p>
    </div>
  );
}
