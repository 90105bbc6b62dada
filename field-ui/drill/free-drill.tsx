import { useCallback, useEffect, useMemo, useState } from 'react';
import { drillPoints } from '../../engine/review/index.ts';
import { putBackItems } from '../../engine/walk/index.ts';
import { LadderDrawing, type LadderState } from '../../shared/ui/ladder/index.ts';
import { useWakeLock } from '../device/use-wake-lock.ts';
import { AnswerSheet } from './answer-sheet.tsx';
import { CircuitSheet } from './circuit-sheet.tsx';
import { DialSheet } from './dial-sheet.tsx';
import { DrillBar } from './drill-bar.tsx';
import { DrillPathSheet } from './drill-path-sheet.tsx';
import { DrillTrouble } from './drill-trouble.tsx';
import { HouseSheet } from './house-sheet.tsx';
import { JumperDock } from './jumper-dock.tsx';
import { LookSheet } from './look-sheet.tsx';
import { MeterDock } from './meter-dock.tsx';
import { firstHands, type Hands } from './meter-hands.ts';
import { useDrill } from './use-drill.ts';
import '../walk/walk.css';
import '../step/step.css';
import '../ritual/ritual.css';

export type DrillSheetName = 'path' | 'circuit' | 'look' | 'answer' | 'house' | 'dial';

/** A drill in free order: the circuit to put the leads on, the meter below it, everything else one press away. */
export function FreeDrill() {
  const { run } = useDrill();
  const { ground, circuit } = run;
  const { bench, found } = ground;
  const [sheet, setSheet] = useState<DrillSheetName>();
  const [hands, setHands] = useState<Hands>(firstHands);
  const close = useCallback(() => setSheet(undefined), []);
  useWakeLock();
  useEffect(() => {
    document.title = `Drill: ${ground.edition.compiled.root.title} · Ohmward`;
  }, [ground]);
  const points = useMemo(() => drillPoints(ground, circuit), [ground, circuit]);
  const on = (point: string | undefined): string | undefined => (point !== undefined && points.includes(point) ? point : undefined);
  const red = on(hands.red);
  const black = on(hands.black);
  const { jumper } = hands;
  // The drawing shows what the tech did and nothing of what is live: that is for the meter to say.
  const state = useMemo((): LadderState => {
    const planned = jumper?.from !== undefined && jumper.to !== undefined ? [{ from: jumper.from, to: jumper.to, planned: true }] : [];
    return {
      jumpers: [...circuit.jumpers.map(([from, to]) => ({ from, to })), ...planned],
      lifted: circuit.lifted,
      forced: Object.fromEntries(Object.entries(circuit.settings).filter(([name, now]) => found.settings[name] !== now)),
    };
  }, [circuit, found, jumper]);
  const pick = (point: string): void =>
    setHands((now) => {
      if (now.jumper)
        return { ...now, jumper: now.jumper.from === undefined || now.jumper.to !== undefined ? { from: point } : { ...now.jumper, to: point } };
      return { ...now, [now.next]: point, next: now.next === 'red' ? 'black' : 'red' };
    });
  const leads = red !== undefined && black !== undefined && !jumper ? { red, black } : undefined;
  return (
    <>
      <div className="walk drill">
        <DrillBar openSheet={setSheet} putBack={putBackItems(circuit, found.settings).length} />
        <main className="walk-body">
          <h1 className="unseen">Drill: {ground.edition.compiled.root.title}</h1>
          <LadderDrawing bench={bench} state={state} leads={leads} onPickTerminal={pick} />
        </main>
        <section className="walk-dock" aria-label="Entry">
          <DrillTrouble />
          {jumper ? (
            <JumperDock
              jumper={jumper}
              onClose={() => setHands(({ jumper: _, ...rest }) => rest)}
              onChange={(next) => setHands({ ...hands, jumper: next })}
            />
          ) : (
            <MeterDock hands={{ ...hands, red, black }} onHands={setHands} openSheet={setSheet} />
          )}
        </section>
      </div>
      {sheet === 'path' && <DrillPathSheet onClose={close} />}
      {sheet === 'house' && <HouseSheet onClose={close} />}
      {sheet === 'look' && <LookSheet onClose={close} />}
      {sheet === 'answer' && <AnswerSheet onClose={close} />}
      {sheet === 'dial' && <DialSheet hands={hands} onHands={setHands} onClose={close} />}
      {sheet === 'circuit' && (
        <CircuitSheet
          onClose={close}
          onJumper={() => {
            setHands({ ...hands, jumper: {} });
            close();
          }}
        />
      )}
    </>
  );
}
