import { useMemo, useState } from 'react';
import { asFound, type Bench, namesOf, prepare, type Situation, signsOf, solve } from '../../engine/bench/index.ts';
import { LadderDrawing, stateOfSolved } from '../../shared/ui/ladder/index.ts';
import { CircuitControls } from './circuit-controls.tsx';
import { isAcross, MeterPanel, type MeterSet } from './meter-panel.tsx';

/** A bench that passes its checks, to try: everything that a tech can do to it, and what the meter and the signs then show. */
export function BenchWorkbench({ bench }: { readonly bench: Bench }) {
  const prepared = useMemo(() => prepare(bench), [bench]);
  const [wanted, setSituation] = useState<Situation>(() => asFound(bench));
  const [chosen, setMeter] = useState<MeterSet>(() => firstMeter(bench));
  const situation = useMemo(() => fitting(bench, wanted), [bench, wanted]);
  const points = useMemo(() => [...bench.terminals, ...situation.lifted.filter((lead) => !bench.terminals.includes(lead))], [bench, situation]);
  const meter = fittingMeter(chosen, points);
  const now = useMemo(() => solve(prepared, situation), [prepared, situation]);
  const sound = useMemo(() => (situation.faults.length === 0 ? undefined : solve(prepared, { ...situation, faults: [] })), [prepared, situation]);
  const state = useMemo(() => (now.ok ? stateOfSolved(now, { faults: true }) : undefined), [now]);
  const pick = (point: string): void =>
    setMeter({ ...meter, [meter.next]: point, next: meter.next === 'red' ? 'black' : 'red', ...(!isAcross(meter.dial) && { dial: 'ac-voltage' }) });
  return (
    <>
      <div className="workbench">
        <section className="workbench-ladder" aria-label="Circuit">
          {!now.ok && (
            <p className="workbench-unsettled" role="status">
              This circuit has no steady state; the drawing shows it at rest. The meter says why.
            </p>
          )}
          <LadderDrawing
            bench={bench}
            {...(state && { state })}
            leads={isAcross(meter.dial) ? { red: meter.red, black: meter.black } : undefined}
            onPickTerminal={pick}
            mechanical
          />
        </section>
        <aside className="workbench-side">
          <MeterPanel bench={bench} meter={meter} set={setMeter} points={points} now={now} sound={sound} />
          <Signs now={now.ok ? signsOf(now) : {}} sound={sound?.ok ? signsOf(sound) : undefined} />
        </aside>
      </div>
      <CircuitControls bench={bench} situation={situation} set={setSituation} points={points} />
    </>
  );
}

type SignsProps = { readonly now: Readonly<Record<string, boolean>>; readonly sound: Readonly<Record<string, boolean>> | undefined };

function Signs({ now, sound }: SignsProps) {
  const names = Object.keys(now);
  if (names.length === 0) return null;
  return (
    <section className="bench-signs" aria-labelledby="signs-now">
      <h2 id="signs-now">Signs</h2>
      <ul>
        {names.map((name) => (
          <li key={name}>
            <span aria-hidden="true">{now[name] ? '●' : '○'}</span> {name}: <strong>{now[name] ? 'yes' : 'no'}</strong>
            {sound && sound[name] !== now[name] && <span className="sign-sound">, sound circuit: {sound[name] ? 'yes' : 'no'}</span>}
          </li>
        ))}
      </ul>
    </section>
  );
}

function firstMeter(bench: Bench): MeterSet {
  const [red = '', black = ''] = bench.terminals.includes('R') && bench.terminals.includes('C') ? ['R', 'C'] : bench.terminals;
  return { dial: 'ac-voltage', low: false, red, black: black === '' ? red : black, at: '', next: 'red' };
}

/** Leads of a point that is gone from the bench stand on the first one. */
function fittingMeter(meter: MeterSet, points: readonly string[]): MeterSet {
  const on = (point: string): string => (points.includes(point) ? point : (points[0] ?? ''));
  return { ...meter, red: on(meter.red), black: on(meter.black) };
}

/** What was done to a bench, as far as the bench as it is written now still has it. */
function fitting(bench: Bench, wanted: Situation): Situation {
  const found = asFound(bench);
  const { leads } = namesOf(bench);
  const lifted = wanted.lifted.filter((lead) => leads.includes(lead));
  const points = new Set([...bench.terminals, ...lifted]);
  const known = <T,>(of: Readonly<Record<string, T>>, mine: Readonly<Record<string, T>>, fits: (name: string, value: T) => boolean) =>
    Object.fromEntries(
      Object.entries(of).map(([name, value]) => {
        const own = mine[name];
        return [name, own !== undefined && fits(name, own) ? own : value];
      }),
    );
  return {
    settings: known(found.settings, wanted.settings, (name, state) => bench.settings[name]?.includes(state) ?? false),
    facts: known(found.facts, wanted.facts, () => true),
    faults: wanted.faults.filter((fault) => Object.hasOwn(bench.faults, fault)),
    jumpers: wanted.jumpers.filter((ends) => ends.every((point) => points.has(point))),
    lifted,
  };
}
