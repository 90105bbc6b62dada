import {
  type Bench,
  type MeterReading,
  type MeterRefusal,
  measure,
  meterRefusalWords,
  namesOf,
  type Solution,
  unsolvedWords,
} from '../../engine/bench/index.ts';
import { QUANTITY_KINDS, type QuantityKindName, showQuantity } from '../../engine/quantity/index.ts';

/** What the dial stands on, and where the leads do. */
export type MeterSet = {
  readonly dial: QuantityKindName;
  readonly low: boolean;
  readonly red: string;
  readonly black: string;
  /** A part or place, for what is read without two leads. */
  readonly at: string;
  /** The lead that the next press on the drawing moves. */
  readonly next: 'red' | 'black';
};

const ACROSS: readonly QuantityKindName[] = ['ac-voltage', 'dc-voltage', 'resistance', 'continuity', 'capacitance', 'frequency'];
const CURRENTS: readonly QuantityKindName[] = ['ac-current', 'dc-current'];

export const isAcross = (dial: QuantityKindName): boolean => ACROSS.includes(dial);

/** Everything that can be read on a bench: the meter's ranges, and what its places are read as. */
function dialsOf(bench: Bench): readonly QuantityKindName[] {
  const places = Object.values(bench.parts).flatMap((part) => (part.kind === 'place' ? [part.reads] : []));
  return [...new Set([...ACROSS, ...CURRENTS, ...places])];
}

function placesFor(bench: Bench, dial: QuantityKindName): readonly string[] {
  return namesOf(bench).places.filter((name) => {
    const part = bench.parts[name];
    return part?.kind === 'place' ? part.reads === dial : CURRENTS.includes(dial);
  });
}

type MeterPanelProps = {
  readonly bench: Bench;
  readonly meter: MeterSet;
  readonly set: (meter: MeterSet) => void;
  readonly points: readonly string[];
  readonly now: Solution;
  /** The same circuit without its faults; undefined where it has none. */
  readonly sound: Solution | undefined;
};

/** The meter: its dial, its leads, what it shows, and what it would show on the sound circuit. */
export function MeterPanel({ bench, meter, set, points, now, sound }: MeterPanelProps) {
  const places = placesFor(bench, meter.dial);
  const at = places.includes(meter.at) ? meter.at : (places[0] ?? '');
  const shown = readingOf(now, meter, at);
  const healthy = sound && readingOf(sound, meter, at);
  return (
    <section className="meter" aria-labelledby="meter-title">
      <h2 id="meter-title">Meter</h2>
      <label className="meter-field">
        Dial
        <select
          value={meter.dial}
          onChange={(event) => set({ ...meter, dial: dialsOf(bench).find((dial) => dial === event.target.value) ?? meter.dial })}
        >
          {dialsOf(bench).map((dial) => (
            <option key={dial} value={dial}>
              {QUANTITY_KINDS[dial].label}
            </option>
          ))}
        </select>
      </label>
      {isAcross(meter.dial) ? (
        <>
          {(['red', 'black'] as const).map((lead) => (
            <label key={lead} className="meter-field">
              <span>
                <span className={`lead-mark lead-${lead}`} aria-hidden="true">
                  {lead === 'red' ? '▲' : '▼'}
                </span>{' '}
                {lead === 'red' ? 'Red lead on' : 'Black lead on'}
              </span>
              <select value={meter[lead]} onChange={(event) => set({ ...meter, [lead]: event.target.value, next: lead === 'red' ? 'black' : 'red' })}>
                {points.map((point) => (
                  <option key={point}>{point}</option>
                ))}
              </select>
            </label>
          ))}
          <p className="meter-next">
            The next point pressed on the drawing gets the <strong>{meter.next}</strong> lead.
          </p>
          {(meter.dial === 'ac-voltage' || meter.dial === 'dc-voltage') && (
            <label className="meter-check">
              <input type="checkbox" checked={meter.low} onChange={(event) => set({ ...meter, low: event.target.checked })} /> Low-impedance input
            </label>
          )}
        </>
      ) : (
        <label className="meter-field">
          At
          <select value={at} onChange={(event) => set({ ...meter, at: event.target.value })}>
            {places.map((place) => (
              <option key={place}>{place}</option>
            ))}
          </select>
        </label>
      )}
      <output className="meter-reading" aria-label="Reading">
        {typeof shown === 'string' ? <span className="meter-refused">{shown}</span> : <strong>{shown.shown}</strong>}
      </output>
      {typeof shown !== 'string' && <p className="meter-spread">{spread(shown)}</p>}
      <p className="meter-sound">
        {healthy === undefined ? (
          'No fault is switched on: this is the sound circuit.'
        ) : (
          <>
            Sound circuit: <strong>{typeof healthy === 'string' ? healthy : healthy.shown}</strong>
          </>
        )}
      </p>
    </section>
  );
}

function spread({ low, high, quantity }: MeterReading): string {
  if (low === 'open' || high === 'open') return 'The meter shows over-range.';
  const text = (value: number): string => showQuantity(value, quantity);
  return text(low) === text(high) ? '' : `With the meter's accuracy: ${text(low)} to ${text(high)}`;
}

/** What the meter shows, or in words why it shows nothing. */
function readingOf(solution: Solution, { dial, low, red, black }: MeterSet, at: string): MeterReading | string {
  if (!solution.ok) {
    const { message, fix } = unsolvedWords(solution);
    return `${message} ${fix}`;
  }
  const place = isAcross(dial) ? { across: [red, black] as const } : { at };
  const reading: MeterReading | MeterRefusal = measure(solution, dial, place, low ? { input: 'low' } : {});
  if (reading.ok) return reading;
  const { message, fix } = meterRefusalWords(reading);
  return `${message} ${fix}`;
}
