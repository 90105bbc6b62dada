import type { CompiledEdition, CompiledStep } from './compiled-edition.ts';
import type { WalkContext } from './walk-context.ts';
import type { WalkPhase } from './walk-view.ts';

/** Where a walk's machine stands, read from its state value. */
export type WalkPosition = { readonly phase: WalkPhase | 'unopened'; readonly step?: CompiledStep };

// The machine's leaf states by the phase that they are.
const PHASES: Readonly<Record<string, WalkPhase | 'unopened'>> = {
  unopened: 'unopened',
  opening: 'opening',
  cautions: 'cautions',
  work: 'work',
  verdict: 'verdict',
  repair: 'repair',
  'put-back': 'put-back',
  recheck: 'recheck',
  closing: 'closing',
  closed: 'closed',
};

function leaf(value: unknown): string {
  let at = value;
  while (typeof at === 'object' && at !== null) at = Object.values(at)[0];
  return typeof at === 'string' ? at : '';
}

/** The position for a state value and context of a walk's machine. In `recheck` the step is the recheck's. */
export function walkPosition(edition: CompiledEdition, value: unknown, context: WalkContext): WalkPosition {
  const open = context.at === undefined ? undefined : edition.steps.get(context.at);
  const name = leaf(value);
  if (name === 'told' && open) return { phase: open.step.kind === 'finding' ? 'finding' : 'handoff', step: open };
  const phase = PHASES[name] ?? 'unopened';
  const step = phase === 'recheck' && edition.recheck ? edition.steps.get(edition.recheck.key) : open;
  return phase === 'opening' || phase === 'unopened' || !step ? { phase } : { phase, step };
}
