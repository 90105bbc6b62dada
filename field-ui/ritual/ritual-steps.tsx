import { useSession } from '../walk/use-session.ts';

type Stage = 'repair' | 'put-back' | 'recheck' | 'close';

const WORDS: Readonly<Record<Stage, string>> = { repair: 'Repair', 'put-back': 'Put back', recheck: 'Try again', close: 'Close' };

/** How the call is closed, the same for every tree: which of its stages are done, and which is now. */
export function RitualSteps({ now }: { readonly now: Stage }) {
  const { view, walk } = useSession();
  const handedOff = view.step?.kind === 'handoff';
  const stages: Stage[] = [];
  if (!handedOff && (view.finding?.faults.length ?? 1) > 0) stages.push('repair');
  stages.push('put-back');
  if (!handedOff && walk.edition.compiled.recheck && view.repaired?.done !== false) stages.push('recheck');
  stages.push('close');
  const at = stages.indexOf(now);
  return (
    <ol className="ritual-steps" aria-label="Closing the call">
      {stages.map((stage, index) => (
        <li key={stage} data-state={index < at ? 'done' : index === at ? 'now' : 'to-come'} aria-current={index === at ? 'step' : undefined}>
          {WORDS[stage]}
          {index < at && <span className="unseen"> (done)</span>}
        </li>
      ))}
    </ol>
  );
}
