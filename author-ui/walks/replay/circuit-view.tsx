import { useId, useMemo } from 'react';
import { type Bench, prepare, solve, unsolvedWords, withFault } from '../../../engine/bench/index.ts';
import { LadderDrawing, stateOfSolved } from '../../../shared/ui/ladder/index.ts';
import { plainName } from '../walk-words.ts';
import type { Frame } from './replay-frame.ts';

/** What is wrong in the drawn circuit: nothing, the fault that was likeliest then, or the one that it turned out to be. */
export type DrawnFault = 'sound' | 'likeliest' | 'confirmed';

type CircuitViewProps = {
  readonly frame: Frame;
  readonly benches: Readonly<Record<string, Bench>>;
  readonly likeliest: string | undefined;
  readonly confirmed: string | undefined;
  readonly drawn: DrawnFault;
  readonly draw: (drawn: DrawnFault) => void;
};

/** The circuit as the tech had it after a line: settings, jumpers, lifted leads, and the leads on the two points of the reading. */
export function CircuitView({ frame, benches, likeliest, confirmed, drawn, draw }: CircuitViewProps) {
  const title = useId();
  const { circuit, leads } = frame;
  const bench = circuit && benches[circuit.bench];
  const prepared = useMemo(() => bench && prepare(bench), [bench]);
  const faults = { sound: undefined, likeliest, confirmed };
  const wanted = faults[drawn];
  const fault = wanted !== undefined && bench && Object.hasOwn(bench.faults, wanted) ? wanted : undefined;
  const key = circuit && JSON.stringify(circuit.situation);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a situation is what it says, whichever line it came with.
  const solved = useMemo(
    () => (prepared && circuit ? solve(prepared, fault === undefined ? circuit.situation : withFault(circuit.situation, fault)) : undefined),
    [prepared, key, fault],
  );
  const state = useMemo(() => (solved?.ok ? stateOfSolved(solved, { faults: true }) : undefined), [solved]);
  if (!circuit || !bench || !prepared) return <p className="walk-hint">This tree names no bench, so there is no circuit to draw.</p>;
  const isThere = (point: string): boolean => prepared.index.nodeNumber.has(point) || prepared.known.lead.has(point);
  const standing = leads && isThere(leads.red) && isThere(leads.black) ? leads : undefined;
  return (
    <section className="walk-circuit" aria-labelledby={title}>
      <h2 id={title}>The circuit then</h2>
      <label className="walk-drawn">
        Drawn with{' '}
        <select value={drawn} onChange={(event) => draw(event.target.value as DrawnFault)}>
          <option value="sound">nothing wrong in it</option>
          <option value="likeliest" disabled={likeliest === undefined}>
            {likeliest === undefined ? 'the likeliest fault' : `${plainName(likeliest)}, likeliest then`}
          </option>
          {confirmed !== undefined && <option value="confirmed">{plainName(confirmed)}, what it was</option>}
        </select>
      </label>
      {solved && !solved.ok && <p className="walk-hint">{unsolvedWords(solved).message}</p>}
      <LadderDrawing bench={bench} {...(state && { state })} leads={standing} mechanical />
      {circuit.others.length > 0 && <p className="walk-hint">Drawn as {bench.title}. Which wiring the site has was not told yet.</p>}
    </section>
  );
}
