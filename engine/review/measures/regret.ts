import { readAction } from '../../tree/index.ts';
import { putBackItems, puttingBack } from '../../walk/index.ts';
import type { ReplayedLine } from '../replayed-log.ts';
import type { Measure, StepStay } from '../walk-review.ts';
import { hasBench, type MeasureGround } from './measure-ground.ts';

/** The faults that a walk's circuit turned out to have, `undefined` for none; a code where that is not known. */
function knownFaults({ confirmation, finding, log }: MeasureGround): readonly (string | undefined)[] | 'no-finding' | 'fault-not-known' {
  if (confirmation?.fault !== undefined) return [confirmation.fault];
  if (!finding) return 'no-finding';
  const { outcome } = log.end.snapshot.context;
  const held = confirmation ? confirmation.held : outcome === 'fixed' || outcome === 'nothing-wrong';
  if (!held) return 'fault-not-known';
  return finding.faults.length === 0 ? [undefined] : finding.faults;
}

/**
 * Minutes by the tree's own count that the walk took to its last finding, less those that the best known order takes to the fault that it was. Asks are
 * left out: the best order takes the facts as known too.
 */
export function regret(ground: MeasureGround): Measure {
  const { of, log } = ground;
  if (!hasBench(ground)) return { code: 'regret', missing: 'no-bench' };
  const faults = knownFaults(ground);
  if (typeof faults === 'string') return { code: 'regret', missing: faults };
  const found = log.lines.findLast(({ line }) => line.event.type === 'found');
  const first = log.lines[0];
  if (!found || !first) return { code: 'regret', missing: 'no-finding' };
  const named = ground.confirmation?.bench;
  const benches = named === undefined ? of.benches(found) : [named];
  const best = benches.flatMap((bench) => {
    const order = of.bestOrder(bench);
    return faults.flatMap((fault) => order?.of(fault) ?? []);
  });
  if (best.length === 0) return { code: 'regret', missing: 'fault-not-known' };
  const [bench = ''] = benches;
  const least = best.reduce((sum, minutes) => sum + minutes, 0) / best.length;
  const spent = spentUntil(ground, found.line.seq, bench);
  const whole = spent.reduce((sum, { minutes }) => sum + minutes, 0);
  return {
    code: 'regret',
    value: whole - least,
    evidence: spent.map(({ seq, minutes, stay }, i) => ({
      seq,
      ...(stay && { tree: stay.tree, step: stay.step }),
      // The sums once, under the last.
      values: { minutes, ...(i === spent.length - 1 && { spent: whole, best: least }) },
    })),
  };
}

type Spent = { readonly seq: number; readonly minutes: number; readonly stay: StepStay | undefined };

/** What each line up to a finding cost by the tree's count: a step once a stay, and every change of the circuit beside the tree's acts. */
function spentUntil({ of, log, stays }: MeasureGround, last: number, bench: string): readonly Spent[] {
  const model = of.minutes(bench);
  const paid = new Set<number>();
  return log.lines.slice(0, last).flatMap((replayed): readonly Spent[] => {
    const { line, before } = replayed;
    const { event } = line;
    const stay = stays.findLast(({ from }) => from < line.seq);
    if (event.type === 'did' && event.does !== undefined) {
      const action = readAction(event.does);
      return action && model ? [{ seq: line.seq, minutes: model.action(action), stay }] : [];
    }
    if (event.type === 'put-back') {
      const action = itemAction(replayed, event.item);
      return action && model ? [{ seq: line.seq, minutes: model.action(action), stay }] : [];
    }
    if (!stay || paid.has(stay.place) || (stay.kind !== 'reading' && stay.kind !== 'look' && stay.kind !== 'act')) return [];
    if (event.type !== 'read' && event.type !== 'looked' && event.type !== 'did' && event.type !== 'could-not') return [];
    paid.add(stay.place);
    const step = before.snapshot.context.at === undefined ? undefined : of.edition.compiled.steps.get(before.snapshot.context.at);
    return step ? [{ seq: line.seq, minutes: step.step.minutes, stay }] : [];
  });
}

function itemAction({ before }: ReplayedLine, key: string) {
  const item = putBackItems(before.snapshot.context.circuit, before.edition.compiled.asFound).find((each) => each.key === key);
  return item && puttingBack(item);
}
