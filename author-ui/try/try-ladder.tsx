import { useMemo } from 'react';
import { prepare, solve } from '../../engine/bench/index.ts';
import type { Step } from '../../engine/tree/index.ts';
import { LadderDrawing, stateOfSolved } from '../../shared/ui/ladder/index.ts';
import type { TryOffer, TrySetup, TryState } from './try-state.ts';
import { caseWords } from './try-words.ts';

/** The points of the circuit that a step is about. */
function touchedBy(step: Step): readonly string[] {
  if (step.kind === 'reading') return step.across ?? [];
  if (step.kind !== 'act') return [];
  return step.does.flatMap((action) => {
    if (action.do === 'jumper' || action.do === 'remove-jumper') return [action.from, action.to];
    return action.do === 'lift' || action.do === 'land' ? [action.lead] : [];
  });
}

type TryLadderProps = { readonly state: TryState; readonly offer: TryOffer; readonly setup: TrySetup };

/** The circuit as it stands in the try, with its fault, and the leads where the step puts them. */
export function TryLadder({ state: { situation, step, unsolved }, offer, setup }: TryLadderProps) {
  const bench = setup.bench === undefined ? undefined : offer.benches[setup.bench];
  const prepared = useMemo(() => bench && prepare(bench), [bench]);
  const solved = useMemo(() => (prepared && situation ? solve(prepared, situation) : undefined), [prepared, situation]);
  const drawn = useMemo(() => (solved?.ok ? stateOfSolved(solved, { faults: true }) : undefined), [solved]);
  if (!bench || !prepared) return null;
  const isThere = (point: string): boolean => prepared.index.nodeNumber.has(point) || prepared.known.lead.has(point);
  const touched = touchedBy(step).filter(isThere);
  const [red, black] = step.kind === 'reading' && step.across ? step.across : [];
  const leads = red !== undefined && black !== undefined && isThere(red) && isThere(black) ? { red, black } : undefined;
  return (
    <figure className="try-ladder">
      {unsolved !== undefined && <p className="try-untold">{unsolved}</p>}
      <LadderDrawing bench={bench} {...(drawn && { state: drawn })} leads={leads} focus={touched.length > 0 ? touched : undefined} />
      <figcaption>{caseWords({ ...setup, fault: situation?.faults[0] }, offer)}, as it stands now.</figcaption>
    </figure>
  );
}
