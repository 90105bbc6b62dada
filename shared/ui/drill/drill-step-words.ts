import type { Bench } from '../../../engine/bench/index.ts';
import type { DrillAnswer, DrillMove, DrillPathStep, DrillScore } from '../../../engine/review/index.ts';
import { type Probe, probeWords } from '../../../engine/suspects/index.ts';
import type { PutBackItem } from '../../../engine/walk/index.ts';
import { actionWords } from '../words/action-words.ts';
import { plainWords } from '../words/plain-words.ts';

/** A reading or a look in words: `AC volts R to C`, `Look: valve clicks`. */
export function drillProbeWords(probe: Probe): string {
  const words = probeWords(probe);
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
}

export function drillStepWords({ does }: Pick<DrillPathStep, 'does'>): string {
  switch (does.kind) {
    case 'act':
      return actionWords(does.action);
    case 'dead':
      return `Read ${does.across.join(' to ')} dead`;
    case 'probe':
      return drillProbeWords(does.probe);
  }
}

/** A move that was refused. */
export function drillMoveWords(move: DrillMove): string {
  switch (move.do) {
    case 'measure':
      return drillProbeWords({ kind: 'reading', takes: move.takes, across: move.across, ...(move.input && { input: move.input }) });
    case 'measure-at':
      return drillProbeWords({ kind: 'reading', takes: move.takes, at: move.at });
    case 'look':
      return drillProbeWords({ kind: 'look', sign: move.sign });
    case 'name':
      return 'Named the answer';
    case 'give-up':
      return 'Gave up';
    case 'walk':
      return move.event.type === 'did' ? (move.event.does ?? 'What the step says') : plainWords(move.event.type);
    default:
      return actionWords(move);
  }
}

/** What is or could be wrong, in the bench's own words. */
export function drillAnswerWords({ faults }: Bench, answer: DrillAnswer): string {
  if (answer === undefined) return 'Nothing is wrong.';
  const fault = faults[answer];
  return fault?.says ?? (fault ? `${plainWords(fault.part)} becomes ${fault.becomes}` : plainWords(answer));
}

export function stillInPlaceWords(item: PutBackItem): string {
  switch (item.kind) {
    case 'jumper':
      return `Jumper on ${item.from} to ${item.to}`;
    case 'lifted':
      return `Lead ${plainWords(item.lead)} is lifted`;
    case 'setting':
      return `${plainWords(item.setting)} is ${plainWords(item.now)}, found ${plainWords(item.asFound)}`;
  }
}

/** Minutes as people count them: `4`, `4.5`. */
export const minutesText = (minutes: number): string => String(Math.round(minutes * 10) / 10);

/** The one line that says how it went. */
export function outcomeTitle({ end, right }: Pick<DrillScore, 'end' | 'right'>): string {
  if (end?.how === 'gave-up') return 'Given up';
  if (end?.how === 'handed-off') return 'Handed over';
  if (end === undefined) return 'Not finished';
  return right ? 'Right' : 'Not that';
}
