import { type WalkableEdition, walkPosition } from '../walk/index.ts';
import { type ReplayedLine, type ReplayedLog, replayedLog } from './replayed-log.ts';
import type { StepStay } from './walk-review.ts';

const RITUAL = new Set(['repair', 'put-back', 'recheck', 'closing', 'closed']);

/** Every stay at a step of a walk's log, in order, as far as the log can be trusted. A finding's goes on until the call is closed. */
export const walkStays = (edition: WalkableEdition, lines: readonly unknown[]): readonly StepStay[] => staysOf(edition, replayedLog(edition, lines));

/** Minutes from the first line to the last, pauses taken out. */
export const walkMinutes = ({ lines }: ReplayedLog): number => lines.reduce((sum, { worked }) => sum + worked, 0);

export function staysOf({ compiled }: WalkableEdition, { lines }: ReplayedLog): readonly StepStay[] {
  const stays: StepStay[] = [];
  let open: StepStay | undefined;
  for (const replayed of lines) {
    const { line, worked, after } = replayed;
    if (open) open = { ...open, to: line.seq, minutes: open.minutes + worked };
    if (!isMove(replayed)) continue;
    if (open) stays.push({ ...open, ...leaving(replayed) });
    const { context } = after.snapshot;
    const step = context.at === undefined ? undefined : compiled.steps.get(context.at);
    open = step && {
      place: stays.length,
      tree: step.tree.name,
      step: step.step.id,
      title: step.step.title,
      kind: step.step.kind,
      from: line.seq,
      to: line.seq,
      minutes: 0,
      tooClose: false,
      acceptedTooClose: false,
      couldNot: false,
      jumped: line.event.type === 'jumped',
      steppedBack: false,
    };
  }
  const last = lines.at(-1);
  if (open && last) stays.push({ ...open, ...standing(last) });
  return stays;
}

/** Whether a line led to a step, the same one again included. */
function isMove({ before, after }: ReplayedLine): boolean {
  const [was, is] = [before.snapshot.context, after.snapshot.context];
  if (was.at !== is.at) return true;
  if (is.at === undefined || was.path.length === is.path.length) return false;
  return !RITUAL.has(walkPosition(after.edition.compiled, after.snapshot.value, is).phase);
}

type Leaving = Pick<StepStay, 'on' | 'tooClose' | 'acceptedTooClose' | 'couldNot' | 'steppedBack'>;

function leaving({ line, before, after }: ReplayedLine): Partial<Leaving> {
  const [was, is] = [before.snapshot.context, after.snapshot.context];
  const { type } = line.event;
  if (type === 'stepped-back') return { steppedBack: true };
  // A recheck that failed leaves the finding, which was accepted before.
  const entry = type === 'rechecked' ? was.path.at(-1) : is.path[was.path.length];
  if (!entry || type === 'jumped') return {};
  return {
    ...(entry.on !== undefined && { on: entry.on }),
    tooClose: (entry.judged?.reaches.length ?? 0) > 0,
    acceptedTooClose: entry.acceptedTooClose === true,
    couldNot: type === 'could-not',
  };
}

/** Of the stay that the log ends in. */
function standing({ after }: ReplayedLine): Partial<Leaving> {
  const { context } = after.snapshot;
  const { phase } = walkPosition(after.edition.compiled, after.snapshot.value, context);
  const on = RITUAL.has(phase) ? context.path.at(-1)?.on : undefined;
  return { ...(on !== undefined && { on }), tooClose: (context.verdict?.judged?.reaches.length ?? 0) > 0 };
}
