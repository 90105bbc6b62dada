import { type PutBackItem, putBackItems, stepKey, walkPosition } from '../../walk/index.ts';
import type { ReplayedLine } from '../replayed-log.ts';
import type { Measure, MeasureEvidence, StepStay } from '../walk-review.ts';
import type { MeasureGround } from './measure-ground.ts';

/** Repaired, and the complaint not tried again: closed without, or left open there. */
export function notRechecked({ log, of }: MeasureGround): Measure {
  const repaired = log.lines.findLast(({ line: { event } }) => event.type === 'repaired' && event.done);
  if (!repaired || !of.edition.compiled.recheck) return { code: 'not-rechecked', missing: 'not-applicable' };
  const tried = log.lines.some(({ line }) => line.event.type === 'rechecked' && line.seq > repaired.line.seq);
  return { code: 'not-rechecked', value: tried ? 0 : 1, evidence: tried ? [] : [{ seq: repaired.line.seq }] };
}

const itemsOf = ({ snapshot }: ReplayedLine['before'], asFound: Readonly<Record<string, string>>): readonly PutBackItem[] =>
  putBackItems(snapshot.context.circuit, asFound);

/** Things put back only in the closing list though steps before the finding no longer needed them. */
export function putBackLate(ground: MeasureGround): Measure {
  const { log, of } = ground;
  const { asFound } = of.edition.compiled;
  const since = new Map<string, number>();
  const evidence: MeasureEvidence[] = [];
  for (const { line, before, after } of log.lines) {
    const { phase } = walkPosition(of.edition.compiled, before.snapshot.value, before.snapshot.context);
    if (line.event.type === 'put-back' && phase === 'put-back') {
      const { item: key } = line.event;
      const item = itemsOf(before, asFound).find((each) => each.key === key);
      const idle = item ? idleStays(ground, item, since.get(key) ?? 0, line.seq) : [];
      if (item && idle.length > 0)
        evidence.push({ seq: line.seq, ...placed(idle[0]), values: { item: key, steps: idle.length, since: since.get(key) ?? 0 } });
    }
    const now = new Set(itemsOf(after, asFound).map(({ key }) => key));
    for (const key of now) if (!since.has(key)) since.set(key, line.seq);
    for (const key of since.keys()) if (!now.has(key)) since.delete(key);
  }
  return { code: 'put-back-late', value: evidence.length, evidence };
}

const placed = (stay: StepStay | undefined): Pick<MeasureEvidence, 'tree' | 'step'> => (stay ? { tree: stay.tree, step: stay.step } : {});

/** Stays at work after the last one that needed an item in place. */
function idleStays({ stays, of }: MeasureGround, item: PutBackItem, since: number, until: number): readonly StepStay[] {
  const during = stays.filter(({ from, kind }) => from >= since && from < until && (kind === 'reading' || kind === 'look' || kind === 'act'));
  const last = during.findLastIndex((stay) => needs(of, item, stay));
  return during.slice(last + 1);
}

/** Whether a step holds a setting so, or the tree itself comes to it with the item in place. */
function needs(of: MeasureGround['of'], item: PutBackItem, { tree, step: id }: StepStay): boolean {
  const key = stepKey(tree, id);
  const step = of.edition.compiled.steps.get(key);
  if (item.kind === 'setting' && step?.step.while.some(({ setting, state }) => setting === item.setting && state === item.now)) return true;
  const reached = of.reached().get(key);
  if (!reached) return false;
  return putBackItems(reached.circuit, of.edition.compiled.asFound).some((own) => own.key === item.key && sameState(own, item));
}

const sameState = (one: PutBackItem, other: PutBackItem): boolean => one.kind !== 'setting' || other.kind !== 'setting' || one.now === other.now;
