import { useEffect, useMemo, useRef, useState } from 'react';
import { asFound, type Bench, prepare, type Situation, solve, unsolvedWords, withFacts, withFault, withJumper } from '../../engine/bench/index.ts';
import type { CircuitState } from '../../engine/walk/index.ts';
import { LadderDrawing, stateOfSolved } from '../../shared/ui/ladder/index.ts';
import { treeAddress } from '../desk-route.ts';
import type { ProofReport } from './proof-report.ts';
import type { Replay, ReplayStep } from './replay.ts';
import type { ReplayAsked } from './use-proof.ts';

type ReplayViewProps = { readonly report: ProofReport; readonly asked: ReplayAsked; readonly close: () => void };

/** A case walked again, reading by reading, beside the circuit with its fault. */
export function ReplayView({ report, asked, close }: ReplayViewProps) {
  const { which, replay, state } = asked;
  const box = useRef<HTMLElement>(null);
  useEffect(() => {
    if (state === 'there') box.current?.focus();
  }, [state]);
  const bench = report.benches[which.bench];
  return (
    <section className="replay" aria-labelledby="replay-title" ref={box} tabIndex={-1}>
      <header>
        <h2 id="replay-title">
          Replay: {which.fault ?? 'nothing wrong'} on {bench?.title ?? which.bench}
        </h2>
        <button type="button" className="button button-quiet" onClick={close}>
          Close
        </button>
      </header>
      {state === 'asked' && <p role="status">Walking it again…</p>}
      {state === 'there' && !replay && <p role="status">No case of it ends there any more. Prove the tree again.</p>}
      {replay && bench && <ReplaySteps key={`${which.bench} ${which.fault} ${which.end}`} replay={replay} bench={bench} />}
    </section>
  );
}

function ReplaySteps({ replay, bench }: { readonly replay: Replay; readonly bench: Bench }) {
  const { steps, end } = replay;
  const [at, setAt] = useState(0);
  const step = steps[at];
  const circuit = step?.circuit ?? end.circuit;
  const prepared = useMemo(() => prepare(bench), [bench]);
  const solution = useMemo(() => solve(prepared, situationOf(bench, replay, circuit)), [prepared, bench, replay, circuit]);
  const state = useMemo(() => (solution.ok ? stateOfSolved(solution, { faults: true }) : undefined), [solution]);
  const known = new Set([...prepared.known.terminal, ...prepared.known.lead]);
  const leads = step?.leads && known.has(step.leads.red) && known.has(step.leads.black) ? step.leads : undefined;
  return (
    <div className="replay-body">
      <div className="replay-walk">
        <div className="replay-moves">
          <button type="button" className="button button-quiet" disabled={at === 0} onClick={() => setAt(at - 1)}>
            Back
          </button>
          <label>
            Step {at + 1} of {steps.length + 1}
            <input type="range" min={0} max={steps.length} value={at} onChange={(event) => setAt(Number(event.target.value))} />
          </label>
          <button type="button" className="button button-quiet" disabled={at === steps.length} onClick={() => setAt(at + 1)}>
            Next
          </button>
        </div>
        <ol className="replay-path">
          {steps.map((one, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a walk may come to one step twice, and its order is its own.
            <li key={index} aria-current={index === at ? 'step' : undefined}>
              <button type="button" onClick={() => setAt(index)}>
                {one.title}
              </button>
              <span>{toldOf(one)}</span>
            </li>
          ))}
          <li aria-current={at === steps.length ? 'step' : undefined}>
            <button type="button" onClick={() => setAt(steps.length)}>
              {end.title}
            </button>
            <span>{end.endless ? 'it goes round from here for ever' : 'the walk ends here'}</span>
          </li>
        </ol>
        <p>
          <a href={treeAddress(step?.tree ?? end.tree, step?.step ?? end.step)}>Open this step in the tree</a>
        </p>
      </div>
      <div className="replay-circuit">
        {step?.leads && (
          <p className="replay-reading">
            <strong>{step.reading?.shown ?? '–'}</strong> red on {step.leads.red}, black on {step.leads.black}
          </p>
        )}
        {step && !step.leads && step.reading && (
          <p className="replay-reading">
            <strong>{step.reading.shown}</strong> at {step.at}
          </p>
        )}
        {!solution.ok && <p>{unsolvedWords(solution).message}</p>}
        <LadderDrawing bench={bench} {...(state && { state })} leads={leads} mechanical />
      </div>
    </div>
  );
}

const UNTOLD: Readonly<Record<NonNullable<ReplayStep['untold']>, string>> = {
  'no-sign': 'the bench has no such sign',
  'not-read-here': 'the bench cannot be read there',
  'circuit-live': 'refused: the circuit is live',
  'not-solved': 'the circuit does not settle',
  'no-band': 'no band holds this reading',
};

function toldOf({ reading, on, untold, does }: ReplayStep): string {
  const way = does.length > 0 ? does.join(', ') : on;
  const others = reading && reading.others.length > 0 ? ` (the meter could also show: ${reading.others.join('; ')})` : '';
  return `${reading ? `${reading.shown} → ` : ''}${way}${others}${untold ? `; ${UNTOLD[untold]}, so every way was followed` : ''}`;
}

/** The case's circuit with what the walk has done to it so far; names that this bench does not have are of another wiring. */
function situationOf(bench: Bench, { fault, facts }: Replay, circuit: CircuitState | undefined): Situation {
  const { known } = prepare(bench);
  const start = withFacts(asFound(bench), facts);
  const broken = fault === undefined ? start : withFault(start, fault);
  if (!circuit) return broken;
  const settings = Object.fromEntries(Object.entries(broken.settings).map(([setting, found]) => [setting, circuit.settings[setting] ?? found]));
  const done: Situation = { ...broken, settings, lifted: circuit.lifted.filter((lead) => known.lead.has(lead)).sort() };
  const nodes = new Set([...known.terminal, ...known.lead]);
  return circuit.jumpers.filter((ends) => ends.every((point) => nodes.has(point))).reduce((situation, [a, b]) => withJumper(situation, a, b), done);
}
