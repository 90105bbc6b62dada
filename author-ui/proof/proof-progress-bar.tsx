import type { ProofRun } from './use-proof.ts';

type ProofProgressBarProps = { readonly run: Extract<ProofRun, { state: 'running' }>; readonly stop: () => void };

const STAGES = {
  reading: 'Reading the tree and its benches…',
  paths: 'Searching every path for what could hurt someone…',
  faults: 'Walking every fault of every bench…',
} as const;

/** How far a proof is, and the way to stop it. */
export function ProofProgressBar({ run: { stage, done, of }, stop }: ProofProgressBarProps) {
  return (
    <section className="proof-state">
      <p role="status">
        {STAGES[stage]} {stage === 'faults' && `${done} of ${of}`}
      </p>
      <progress aria-label="Proof" {...(stage === 'faults' ? { value: done, max: Math.max(1, of) } : {})} />
      <button type="button" className="button button-quiet" onClick={stop}>
        Stop
      </button>
    </section>
  );
}
