import type { LadderPlan } from './ladder-plan.ts';
import { edgesIn } from './net.ts';

const isFed = ({ supply }: LadderPlan): boolean => supply?.piece === 'secondary';
const fileOrder = (a: LadderPlan, b: LadderPlan): number => (a.supply?.index ?? Infinity) - (b.supply?.index ?? Infinity);

/** From the line down: each ladder is followed by those that its transformers feed, the one that its last rung can be joined to first. */
export function orderLadders(ladders: readonly LadderPlan[]): readonly LadderPlan[] {
  const ordered: LadderPlan[] = [];
  const place = (ladder: LadderPlan): void => {
    if (ordered.includes(ladder)) return;
    ordered.push(ladder);
    for (const below of fedBy(ladder, ladders)) place(below);
  };
  const inFile = ladders.toSorted(fileOrder);
  for (const ladder of inFile) if (ladder.supply && !isFed(ladder)) place(ladder);
  // A transformer in a loop of its own feeding itself, and loops without a supply, come last.
  for (const ladder of inFile) place(ladder);
  return ordered;
}

/** The ladders whose supply is a transformer with its primary in this one. */
export function fedBy(ladder: LadderPlan, ladders: readonly LadderPlan[]): readonly LadderPlan[] {
  const primaries = new Set(edgesIn(ladder.net).flatMap(({ piece, part }) => (piece === 'primary' ? [part] : [])));
  return ladders.filter((other) => other !== ladder && isFed(other) && primaries.has(other.supply?.part ?? '')).toSorted(fileOrder);
}
