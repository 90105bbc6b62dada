import { useMemo } from 'react';
import { prepare, solve } from '../../engine/bench/index.ts';
import type { Step } from '../../engine/tree/index.ts';
import { drawnCircuit } from '../../engine/walk/index.ts';
import { LadderDrawing, type LadderState, stateOfSolved } from '../../shared/ui/ladder/index.ts';
import { useSession } from '../walk/use-session.ts';

/** What a step touches on the circuit; nothing for a step that is not about points of it. */
function touchedBy(
  step: Step,
): { readonly points: readonly string[]; readonly leads: readonly string[]; readonly jumpers: readonly (readonly [string, string])[] } | undefined {
  if (step.kind === 'reading') return step.across && { points: step.across, leads: [], jumpers: [] };
  if (step.kind !== 'act') return undefined;
  const jumpers = step.does.flatMap((action) => (action.do === 'jumper' ? [[action.from, action.to] as const] : []));
  const removed = step.does.flatMap((action) => (action.do === 'remove-jumper' ? [action.from, action.to] : []));
  const leads = step.does.flatMap((action) => (action.do === 'lift' || action.do === 'land' ? [action.lead] : []));
  const points = [...jumpers.flat(), ...removed, ...leads];
  return points.length === 0 ? undefined : { points, leads, jumpers };
}

/** The circuit beside a reading or an act: where the leads stand, what is done to it, what a sound one would have live now. */
export function StepLadder() {
  const { view, walk } = useSession();
  const drawn = useMemo(() => drawnCircuit(walk), [walk]);
  const bench = drawn?.bench;
  const prepared = useMemo(() => bench && prepare(bench), [bench]);
  const touched = view.step && touchedBy(view.step);
  if (!drawn || !prepared || !touched || !view.step) return null;
  const known = touched.points.every((point) => prepared.index.nodeNumber.has(point));
  if (!known) return null;
  const solved = solve(prepared, drawn.situation);
  const base: LadderState = solved.ok ? stateOfSolved(solved) : {};
  const on = (a: string, b: string) => drawn.situation.jumpers.some((ends) => ends.includes(a) && ends.includes(b));
  const planned = touched.jumpers.filter(([a, b]) => !on(a, b)).map(([from, to]) => ({ from, to, planned: true }));
  const state: LadderState = { ...base, jumpers: [...(base.jumpers ?? []), ...planned], asked: { leads: touched.leads } };
  const { step } = view;
  const leads = step.kind === 'reading' && step.across ? { red: step.across[0], black: step.across[1] } : undefined;
  return (
    <figure className="step-ladder">
      <LadderDrawing bench={drawn.bench} state={state} leads={leads} focus={touched.points} />
      <figcaption>
        {drawn.bench.title}, as it should be now.
        {drawn.others.length > 0 && ' Drawn for the usual wiring; this house may differ.'}
      </figcaption>
    </figure>
  );
}
