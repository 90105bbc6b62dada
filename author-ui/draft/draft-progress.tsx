import type { DraftStage } from './draft-message.ts';
import type { DraftRun } from './use-draft-tree.ts';

type DraftProgressProps = { readonly run: Extract<DraftRun, { state: 'running' }>; readonly stop: () => void };

const STAGES: Readonly<Record<DraftStage, string>> = {
  reading: 'Reading the bench…',
  gathering: 'Trying every reading and look on every fault…',
  ordering: 'Looking for the order that takes the fewest minutes…',
  checking: 'Writing it out and checking every path…',
};

/** How far a draft is, and the way to stop it. */
export function DraftProgress({ run: { stage, opened, most }, stop }: DraftProgressProps) {
  const counted = stage === 'ordering' && opened > 0;
  return (
    <div className="draft-progress">
      <p role="status">{STAGES[stage]}</p>
      <progress aria-label="Draft" {...(counted ? { value: opened, max: most } : {})} />
      <p className="draft-note">
        {counted
          ? `${opened.toLocaleString('en-US')} sets of suspects weighed; at ${most.toLocaleString('en-US')} it takes the best found.`
          : 'Half a minute at most. Nothing is written until you save.'}
      </p>
      <button type="button" className="button button-quiet" onClick={stop}>
        Stop
      </button>
    </div>
  );
}
